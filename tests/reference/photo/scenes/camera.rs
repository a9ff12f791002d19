//! A camera above a bench: pose, focal length and lens distortion.

use curbcore::photo::Point;

pub type Space = [f64; 3];

pub fn dot(a: Space, b: Space) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub fn unit(v: Space) -> Space {
    let length = dot(v, v).sqrt();
    v.map(|part| part / length)
}

/// On the bench x and y lie as in a picture taken from above, z goes up.
#[derive(Debug, Clone)]
pub struct Camera {
    pub width: usize,
    pub height: usize,
    /// In pixels.
    pub focal: f64,
    /// Principal point.
    pub centre: Point,
    pub eye: Space,
    /// Right, down, forward.
    axes: [Space; 3],
    /// Brown's two radial coefficients, of the squared tangent of the angle to the axis. (The
    /// program under test has one number of another model.)
    pub brown: [f64; 2],
}

impl Camera {
    /// Looks from `eye` at `target`, turned by `roll` about its axis.
    pub fn new((width, height): (usize, usize), focal: f64, eye: Space, target: Space, roll: f64) -> Self {
        let forward = unit([target[0] - eye[0], target[1] - eye[1], target[2] - eye[2]]);
        let start = [roll.cos(), roll.sin(), 0.0];
        let along = dot(start, forward);
        let right = unit([0, 1, 2].map(|i| start[i] - along * forward[i]));
        // z goes up while x and y lie as in a picture: the left hand's cross product.
        let down = [
            forward[2] * right[1] - forward[1] * right[2],
            forward[0] * right[2] - forward[2] * right[0],
            forward[1] * right[0] - forward[0] * right[1],
        ];
        Self {
            width,
            height,
            focal,
            centre: Point::new((width as f64 - 1.0) / 2.0, (height as f64 - 1.0) / 2.0),
            eye,
            axes: [right, down, forward],
            brown: [0.0; 2],
        }
    }

    fn bend(&self, square: f64) -> f64 {
        1.0 + square * (self.brown[0] + square * self.brown[1])
    }

    /// The picture of a place.
    pub fn sees(&self, place: Space) -> Point {
        let from = [0, 1, 2].map(|i| place[i] - self.eye[i]);
        let [x, y, z] = self.axes.map(|axis| dot(axis, from));
        let (x, y) = (x / z, y / z);
        let factor = self.focal * self.bend(x * x + y * y);
        self.centre + Point::new(x * factor, y * factor)
    }

    /// The unit direction from the eye through a point of the picture.
    pub fn ray(&self, at: Point) -> Space {
        let bent = (at - self.centre) * (1.0 / self.focal);
        let mut straight = bent;
        if self.brown != [0.0; 2] {
            for _ in 0..6 {
                straight = bent * (1.0 / self.bend(straight.dot(straight)));
            }
        }
        let [right, down, forward] = self.axes;
        unit([0, 1, 2].map(|i| right[i] * straight.x + down[i] * straight.y + forward[i]))
    }

    /// Whether a place is in the picture, `margin` pixels from its border.
    pub fn shows(&self, place: Space, margin: f64) -> bool {
        let at = self.sees(place);
        at.x >= margin
            && at.y >= margin
            && at.x <= self.width as f64 - 1.0 - margin
            && at.y <= self.height as f64 - 1.0 - margin
    }
}
