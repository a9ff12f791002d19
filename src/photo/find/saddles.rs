//! Saddle points of brightness, where two dark and two bright squares meet on a checkerboard.

use crate::photo::geometry::Point;
use crate::photo::image::Gray;

/// A ring of 16 pixels of radius 5.
const RING: [(isize, isize); 16] = [
    (0, -5),
    (2, -5),
    (4, -4),
    (5, -2),
    (5, 0),
    (5, 2),
    (4, 4),
    (2, 5),
    (0, 5),
    (-2, 5),
    (-4, 4),
    (-5, 2),
    (-5, 0),
    (-5, -2),
    (-4, -4),
    (-2, -5),
];
/// Width of the border that is skipped, in pixels.
const BORDER: usize = 6;
/// Minimum response as a fraction of the strongest.
const MIN_PART: f64 = 0.2;
/// Minimum response: eight pairs of pixels that differ by five grey values.
const MIN_RESPONSE: i32 = 80;
/// Largest number of saddles, strongest first.
const MAX_SADDLES: usize = 3000;

/// Saddle points to the nearest pixel, strongest first.
///
/// On a ring around a saddle, opposite pixels are equal and those a quarter turn apart differ; on
/// an edge opposite pixels differ (Bennett and Lasenby 2014, "`ChESS`: quick and robust detection
/// of chess-board features").
pub(crate) fn saddles(gray: &Gray) -> Vec<Point> {
    let (width, height) = (gray.width(), gray.height());
    if width <= 2 * BORDER || height <= 2 * BORDER {
        return Vec::new();
    }
    let pixels = gray.pixels();
    let steps = RING.map(|(x, y)| y * width as isize + x);
    let mut responses = vec![0_i16; width * height];
    let mut most = 0;
    for y in BORDER..height - BORDER {
        for x in BORDER..width - BORDER {
            let index = y * width + x;
            let at = |k: usize| i32::from(pixels[(index as isize + steps[k]) as usize]);
            // Eight pixels reject most flat areas and edges.
            let quick = (at(0) + at(8) - at(4) - at(12))
                .abs()
                .max((at(2) + at(10) - at(6) - at(14)).abs());
            if quick < 20 {
                continue;
            }
            let response = response(at, i32::from(pixels[index]));
            if response >= MIN_RESPONSE {
                responses[index] = response.min(i32::from(i16::MAX)) as i16;
                most = most.max(response);
            }
        }
    }
    let least = ((f64::from(most) * MIN_PART) as i32).max(MIN_RESPONSE);
    let mut found = peaks(&responses, width, height, least);
    found.sort_by_key(|(strength, _)| std::cmp::Reverse(*strength));
    found.truncate(MAX_SADDLES);
    found.into_iter().map(|(_, place)| place).collect()
}

fn response(at: impl Fn(usize) -> i32, middle: i32) -> i32 {
    let (mut crossed, mut opposite, mut sum) = (0, 0, 0);
    for k in 0..4 {
        let quad = [at(k), at(k + 4), at(k + 8), at(k + 12)];
        crossed += (quad[0] + quad[2] - quad[1] - quad[3]).abs();
        opposite += (quad[0] - quad[2]).abs() + (quad[1] - quad[3]).abs();
        sum += quad.iter().sum::<i32>();
    }
    // The centre of a saddle equals the mean of its ring; that of a spot does not.
    crossed - opposite - (sum - 16 * middle).abs()
}

fn peaks(responses: &[i16], width: usize, height: usize, least: i32) -> Vec<(i16, Point)> {
    let mut found = Vec::new();
    for y in BORDER..height - BORDER {
        for x in BORDER..width - BORDER {
            let value = responses[y * width + x];
            if i32::from(value) < least {
                continue;
            }
            let reach = 4;
            let beaten = (y - reach..=y + reach).any(|v| {
                let row = &responses[v * width + x - reach..=v * width + x + reach];
                let later = (v, 0) > (y, 0);
                row.iter().enumerate().any(|(k, &other)| {
                    let here = v == y && k == reach;
                    !here && (other > value || (other == value && !later && (v < y || k < reach)))
                })
            });
            if !beaten {
                found.push((value, Point::new(x as f64, y as f64)));
            }
        }
    }
    found
}

/// A saddle to a fraction of a pixel: the point to which every gradient within `radius` is
/// perpendicular (Förstner and Gülch 1987), iterated until it moves less than 0.003 pixel. `None`
/// at the border, without two edge directions, or where it moves too far.
pub(crate) fn refined(gray: &Gray, start: Point, radius: f64) -> Option<Point> {
    let mut place = start;
    let reach = radius.ceil() as isize;
    for _ in 0..12 {
        if !gray.contains(place, radius + 2.0) {
            return None;
        }
        let (middle_x, middle_y) = place.pixel();
        let at = |x: isize, y: isize| f64::from(gray.row(y as usize)[x as usize]);
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        let mut sum = Point::new(0.0, 0.0);
        for y in middle_y - reach..=middle_y + reach {
            for x in middle_x - reach..=middle_x + reach {
                let from = Point::new(x as f64, y as f64) - place;
                let square = from.dot(from) / (radius * radius);
                if square > 1.0 {
                    continue;
                }
                let weight = (-2.0 * square).exp();
                let (gx, gy) = (at(x + 1, y) - at(x - 1, y), at(x, y + 1) - at(x, y - 1));
                xx += weight * gx * gx;
                xy += weight * gx * gy;
                yy += weight * gy * gy;
                let along = weight * (gx * from.x + gy * from.y);
                sum = sum + Point::new(gx * along, gy * along);
            }
        }
        let determinant = xx * yy - xy * xy;
        if determinant <= 1e-3 * (xx + yy).powi(2) {
            return None;
        }
        let shift = Point::new(
            (yy * sum.x - xy * sum.y) / determinant,
            (xx * sum.y - xy * sum.x) / determinant,
        );
        place = place + shift;
        if place.distance(start) > 1.5 * radius {
            return None;
        }
        if shift.length() < 0.003 {
            return Some(place);
        }
    }
    Some(place)
}
