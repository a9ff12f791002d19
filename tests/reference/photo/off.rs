//! Distances between found and true outlines in a rendered photo.

use curbcore::job::PhotoFound;
use curbcore::photo::Point;

use super::Plan;

/// Tolerance of a found outline: the reference's rim as this camera sees it, and two pixels of a
/// photo of 1200.
pub fn excused(plan: &Plan) -> f64 {
    let object = &plan.scene.objects[plan.object];
    let long = plan.scene.camera.width.max(plan.scene.camera.height) as f64;
    let rim = plan.outline().into_iter().map(|[x, y, _]| {
        let at = |height: f64| plan.scene.camera.sees([x, y, height]);
        at(object.high).distance(at(object.high - plan.thickness()))
    });
    2.0 * (long / 1200.0).max(0.5) + 1.1 * rim.fold(0.0, f64::max)
}

/// Largest distance of the found outline from the true one, in pixels.
pub fn off(plan: &Plan, found: &PhotoFound) -> f64 {
    let truth: Vec<Point> = plan
        .outline()
        .into_iter()
        .map(|place| plan.scene.camera.sees(place))
        .collect();
    match found {
        PhotoFound::Rectangle { corners } => {
            let corners = corners.map(|[x, y]| Point::new(x, y));
            let turned = |by: usize| {
                (0..4)
                    .map(|k| corners[(k + by) % 4].distance(truth[k]))
                    .fold(0.0, f64::max)
            };
            (0..4).map(turned).fold(f64::INFINITY, f64::min)
        }
        PhotoFound::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let (sine, cosine) = angle.sin_cos();
            let outside = |place: &Point| {
                let from = *place - Point::new(centre[0], centre[1]);
                let (x, y) = (from.x * cosine + from.y * sine, from.y * cosine - from.x * sine);
                let level = (x / half_axes[0]).hypot(y / half_axes[1]);
                (from.length() * (1.0 - 1.0 / level)).abs()
            };
            truth.iter().map(outside).fold(0.0, f64::max)
        }
        PhotoFound::Lattice { .. } => corner_offs(plan, found).into_iter().fold(0.0, f64::max),
        PhotoFound::Marks { .. } => f64::INFINITY,
    }
}

/// Distance of each found corner of the target's squares from the nearest true one, in pixels.
pub fn corner_offs(plan: &Plan, found: &PhotoFound) -> Vec<f64> {
    let PhotoFound::Lattice { corners } = found else {
        return Vec::new();
    };
    let nodes: Vec<Point> = (0..30)
        .flat_map(|column| (0..30).map(move |row| (column, row)))
        .filter_map(|(column, row)| Some(plan.scene.camera.sees(plan.lattice(column, row)?)))
        .collect();
    let near = |(_, _, x, y): &(i32, i32, f64, f64)| {
        let off = nodes.iter().map(|node| node.distance(Point::new(*x, *y)));
        off.fold(f64::INFINITY, f64::min)
    };
    corners.iter().map(near).collect()
}
