//! The camera's live view: what a frame shows of the object of known size.

use super::marks::{reference_from_stored, stored_outline};
use crate::job::{PhotoFound, PhotoReference};
use crate::photo::live::{Hint, LiveView, frame_of_rgba};
use crate::words::Message;

/// A frame of the camera.
#[derive(Debug, Clone, Copy)]
pub struct CameraFrame<'a> {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Pixels of the picture that would be taken to one of the frame.
    pub still: f64,
    /// Red, green, blue and alpha of each pixel, row by row.
    pub rgba: &'a [u8],
}

/// What the live view shows over a frame.
#[derive(Debug, Clone, PartialEq)]
pub struct LiveSight {
    /// Width and height of the frame, in pixels.
    pub frame: [f64; 2],
    /// The object's outline in it.
    pub outline: Option<PhotoFound>,
    /// What the person is to do next.
    pub hint: Hint,
    /// Whether the picture is to be taken now.
    pub take: bool,
}

/// A live view from its first frame to the picture that is taken.
#[derive(Debug, Default)]
pub struct LiveSession(Option<(PhotoReference, LiveView)>);

impl LiveSession {
    /// Looks for the object in the next frame; begins anew where it is another object than before. `None`
    /// for a frame that is too small, or whose pixels do not fit its size.
    ///
    /// # Errors
    /// A sentence for the person where the object is unknown or its size out of range.
    pub fn look(&mut self, object: &PhotoReference, frame: &CameraFrame<'_>) -> Result<Option<LiveSight>, Message> {
        if self.0.as_ref().is_none_or(|(before, _)| before != object) {
            self.0 = Some((object.clone(), LiveView::new(reference_from_stored(object)?)));
        }
        let picture = frame_of_rgba(frame.width, frame.height, frame.rgba);
        let (Some((_, view)), Some(picture)) = (&mut self.0, picture) else {
            return Ok(None);
        };
        let sight = view.next(&picture, frame.still);
        Ok(Some(LiveSight {
            frame: [frame.width as f64, frame.height as f64],
            outline: sight.outline.as_ref().map(stored_outline),
            hint: sight.hint,
            take: sight.take,
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A bright card on a dark ground in a frame of 320 × 240, its upper left corner here.
    fn card(left: usize, upper: usize) -> Vec<u8> {
        let inside = |x: usize, y: usize| (left..left + 160).contains(&x) && (upper..upper + 101).contains(&y);
        (0..320 * 240)
            .flat_map(|index| {
                if inside(index % 320, index / 320) {
                    [210; 4]
                } else {
                    [50; 4]
                }
            })
            .collect()
    }

    fn look(session: &mut LiveSession, object: &PhotoReference, rgba: &[u8]) -> Option<LiveSight> {
        let frame = CameraFrame {
            width: 320,
            height: 240,
            still: 8.0,
            rgba,
        };
        session.look(object, &frame).unwrap()
    }

    /// The outline lies where the card was drawn, and goes with it.
    #[test]
    fn the_outline_follows_the_object() {
        let mut session = LiveSession::default();
        for (left, upper) in [(80, 70), (95, 60)] {
            let sight = look(&mut session, &PhotoReference::Card, &card(left, upper)).unwrap();
            let Some(PhotoFound::Rectangle { corners }) = sight.outline else {
                panic!("{sight:?}")
            };
            let first = corners.iter().map(|[x, y]| x + y).fold(f64::INFINITY, f64::min);
            assert!((first - (left + upper) as f64).abs() < 2.0, "{corners:?}");
        }
    }

    #[test]
    fn a_broken_frame_shows_nothing_and_a_bad_size_is_named() {
        let mut session = LiveSession::default();
        assert_eq!(look(&mut session, &PhotoReference::Card, &[0; 16]), None);
        let coin = PhotoReference::Coin {
            coin: "shell-1".to_owned(),
        };
        let frame = CameraFrame {
            width: 320,
            height: 240,
            still: 8.0,
            rgba: &card(80, 70),
        };
        assert_eq!(session.look(&coin, &frame).unwrap_err().key, "refused-no-reference");
    }
}
