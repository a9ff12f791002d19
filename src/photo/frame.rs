//! The picture's size.

use super::point::Point;

/// A picture's width and height, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Across.
    pub width: f64,
    /// Down.
    pub height: f64,
}

impl Frame {
    /// A frame from its two sides, in pixels.
    #[must_use]
    pub const fn new(width: f64, height: f64) -> Self {
        Self { width, height }
    }

    /// The middle of the picture, where a camera's optical axis meets it unless the picture was
    /// cropped. Counted, like every place in a picture, from the centre of the first pixel.
    #[must_use]
    pub fn centre(self) -> Point {
        Point::new((self.width - 1.0) / 2.0, (self.height - 1.0) / 2.0)
    }

    /// Half the picture's diagonal, in pixels.
    #[must_use]
    pub fn half_diagonal(self) -> f64 {
        self.width.hypot(self.height) / 2.0
    }

    /// True for a picture of at least one pixel each way.
    #[must_use]
    pub fn is_real(self) -> bool {
        self.width.is_finite() && self.height.is_finite() && self.width >= 1.0 && self.height >= 1.0
    }
}
