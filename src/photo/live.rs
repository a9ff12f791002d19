//! A live view: what a frame of a camera shows, one hint at a time, and when the picture is good enough
//! to be taken.
//!
//! Pure: frames in, a [`Sight`] out for each. Begin at [`LiveView::next`]. A frame is small (640 pixels on
//! its long side are enough); the photo that is taken afterwards is searched anew at its full size, so
//! nothing is measured here. An object that was found is followed from frame to frame; the whole frame is
//! searched where it was lost, at least every [`SEARCHED_EVERY`] frames, and before the picture takes itself.
//! While nothing is found, most frames are looked at in half their size first.

use super::find::follow::Followed;
use super::find::{FindError, FindWarning, FoundReference, find_reference};
use super::geometry::{Frame, Point};
use super::image::picture::luma;
use super::image::{Flaw, Gray, Photo, Quality};
use super::measure::distance;
use super::reference::{Reference, ReferenceOutline};
use super::scale::{Options, Scale};
use crate::quantity::{Length, Measured, Origin};

/// Longest side of a frame that is worth searching, in pixels: more costs time and finds no more.
pub const FRAME_SIDE: usize = 640;
/// Largest relative ± of a length of [`SPAN_MM`] in the middle of a picture that takes itself.
pub const GOOD: f64 = 0.01;
/// The length whose ± is predicted, in millimetres: a large core's tongue.
pub const SPAN_MM: f64 = 40.0;
/// Successive frames with another hint before it is shown, so that hints do not flicker.
pub const HINT_FRAMES: usize = 3;
/// Successive good frames before the picture takes itself.
pub const STEADY_FRAMES: usize = 5;

/// Frames from one search of a whole frame to the next, at most: about a second.
pub const SEARCHED_EVERY: usize = 10;

/// While nothing is found, one frame of so many is searched in its own size even where half of it shows nothing.
const SEARCHED_WHOLE: usize = 3;

/// Viewing angle above which the camera is asked to lean less, in degrees: from there on a face's depth
/// hides its edges. Common practice, no source.
const MOST_TILT: f64 = 30.0;
/// Viewing angle that a hand holds without effort, in degrees.
const EASY_TILT: f64 = 12.0;
/// Largest share of saturated positions inside the reference.
const MOST_GLARE: f64 = 0.1;
/// Largest movement of the reference from one frame to the next, as a fraction of the frame's long side.
const STILL: f64 = 0.01;

/// What the person is to do next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Hint {
    /// The object is not found, or not whole in the picture.
    Nothing,
    /// The object does not lie flat: no camera position fits its sides to its known shape.
    Flat,
    /// Light is mirrored into the camera.
    Glare,
    /// Too little light.
    Dark,
    /// The camera is too far away.
    Closer,
    /// The camera leans too much.
    Tilt,
    /// Something else looks like the object.
    Alone,
    /// The camera or the object moves, or the picture is blurred.
    Still,
    /// The picture is good; it takes itself when the camera is held for a moment.
    Good,
    /// This object gives no ± of [`GOOD`] from here: the person decides when to take the picture.
    Button,
}

impl Hint {
    /// All hints, in the order in which they are given where several apply.
    pub const ALL: [Hint; 10] = [
        Hint::Nothing,
        Hint::Glare,
        Hint::Dark,
        Hint::Closer,
        Hint::Flat,
        Hint::Tilt,
        Hint::Alone,
        Hint::Button,
        Hint::Still,
        Hint::Good,
    ];

    /// The identifier used for texts.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Hint::Nothing => "nothing",
            Hint::Flat => "flat",
            Hint::Glare => "glare",
            Hint::Dark => "dark",
            Hint::Closer => "closer",
            Hint::Tilt => "tilt",
            Hint::Alone => "alone",
            Hint::Still => "still",
            Hint::Good => "good",
            Hint::Button => "button",
        }
    }
}

/// What is shown after a frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Sight {
    /// The object's outline in this frame, in pixels of the frame.
    pub outline: Option<ReferenceOutline>,
    /// The hint that holds.
    pub hint: Hint,
    /// Whether the picture is to be taken now.
    pub take: bool,
    /// Whether the object was searched in this frame, not followed from the one before.
    pub searched: bool,
}

/// A live view of one object of known size: what the frames so far have shown.
#[derive(Debug, Clone, PartialEq)]
pub struct LiveView {
    reference: Reference,
    last: Option<Followed>,
    /// Frames in which the object was followed since the last search.
    followed: usize,
    /// Frames in a row in which nothing was found.
    missed: usize,
    shown: Option<Hint>,
    /// A hint that differs from the one shown, and the number of frames that it has come in.
    waiting: Option<(Hint, usize)>,
    good: usize,
}

impl LiveView {
    /// A live view that has seen nothing yet.
    #[must_use]
    pub const fn new(reference: Reference) -> Self {
        Self {
            reference,
            last: None,
            followed: 0,
            missed: 0,
            shown: None,
            waiting: None,
            good: 0,
        }
    }

    /// Looks at the next frame. `still` is the number of pixels of the picture that would be taken to one
    /// of the frame, at least 1.
    pub fn next(&mut self, frame: &Photo, still: f64) -> Sight {
        let (now, found) = match self.found(frame) {
            Ok(found) if is_no_object(&found) => (not_found(frame, &found.quality), None),
            Ok(found) => (self.judged(frame, &found, still), Some(found)),
            Err(FindError::ByHand) => (Hint::Button, None),
            Err(_) => (nothing_in(frame), None),
        };
        self.missed = if found.is_some() { 0 } else { self.missed + 1 };
        let searched = self.followed == 0;
        let outline = found.as_ref().map(|found| found.outline.clone());
        self.last = found.map(|found| Followed::new(frame, found));
        self.good = if now == Hint::Good { self.good + 1 } else { 0 };
        Sight {
            outline,
            hint: self.held(now),
            take: self.good == STEADY_FRAMES,
            searched,
        }
    }

    /// The object in a frame: followed, or searched where that is due.
    fn found(&mut self, frame: &Photo) -> Result<FoundReference, FindError> {
        let due = self.followed + 1 >= SEARCHED_EVERY || self.good + 1 == STEADY_FRAMES;
        let last = self.last.as_ref().filter(|_| !due);
        match last.and_then(|last| last.next(frame, &self.reference)) {
            Some(found) => {
                self.followed += 1;
                Ok(found)
            }
            None => {
                self.followed = 0;
                if !self.missed.is_multiple_of(SEARCHED_WHOLE) {
                    let half = Photo::from_gray(frame.full().shrunk(2)).map_err(|_| FindError::Nothing)?;
                    let found = find_reference(&half, &self.reference)?;
                    if is_no_object(&found) {
                        return Err(FindError::Nothing);
                    }
                }
                find_reference(frame, &self.reference)
            }
        }
    }

    /// The hint for a frame in which the object was found.
    fn judged(&self, frame: &Photo, found: &FoundReference, still: f64) -> Hint {
        let has = |warning| found.warnings.contains(&warning);
        let gray = frame.full();
        let size = Frame::new(gray.width() as f64, gray.height() as f64);
        if has(FindWarning::AtBorder) {
            return Hint::Nothing;
        }
        if has(FindWarning::Photo(Flaw::Glare)) || saturated(gray, &found.outline) > MOST_GLARE {
            return Hint::Glare;
        }
        if has(FindWarning::Photo(Flaw::Dark)) {
            return Hint::Dark;
        }
        if has(FindWarning::Small) {
            return Hint::Closer;
        }
        if has(FindWarning::OddShape) {
            return Hint::Flat;
        }
        let Some(expected) = Expected::of(&self.reference, &found.outline, size, still.max(1.0)) else {
            return Hint::Flat;
        };
        if expected.tilt > MOST_TILT {
            return Hint::Tilt;
        }
        let doubts = [
            FindWarning::SecondAsLikely,
            FindWarning::Unlikely,
            FindWarning::WeakOutline,
            FindWarning::SquareCorners,
        ];
        if doubts.into_iter().any(has) {
            return Hint::Alone;
        }
        if expected.whole > GOOD {
            // Nearer is of no use where the object's own size or the lean of a disc is the larger part.
            return match expected {
                Expected { own, .. } if own < 0.8 * GOOD => Hint::Closer,
                Expected { tilt, .. } if tilt > EASY_TILT => Hint::Tilt,
                _ => Hint::Button,
            };
        }
        let long = size.width.max(size.height);
        let moves = self
            .last
            .as_ref()
            .is_none_or(|last| movement(last.outline(), &found.outline) > STILL * long);
        if moves || has(FindWarning::Photo(Flaw::Blurred)) {
            return Hint::Still;
        }
        Hint::Good
    }

    /// The hint to show: another one than before is shown when it has come in several frames in a row.
    fn held(&mut self, now: Hint) -> Hint {
        let Some(shown) = self.shown else {
            self.shown = Some(now);
            return now;
        };
        if now == shown {
            self.waiting = None;
            return shown;
        }
        let count = match self.waiting {
            Some((hint, count)) if hint == now => count + 1,
            _ => 1,
        };
        if count < HINT_FRAMES {
            self.waiting = Some((now, count));
            return shown;
        }
        (self.shown, self.waiting) = (Some(now), None);
        now
    }
}

/// A frame from a canvas: red, green, blue and alpha of each pixel, row by row; `None` unless their number
/// fits the size and each side has at least 64 pixels.
#[must_use]
pub fn frame_of_rgba(width: usize, height: usize, rgba: &[u8]) -> Option<Photo> {
    Photo::from_gray(Gray::new(width, height, luma(rgba, 4))?).ok()
}

/// Whether what was found is none: its outline is weak, and it lies far aside or has another shape.
fn is_no_object(found: &FoundReference) -> bool {
    let has = |warning| found.warnings.contains(&warning);
    has(FindWarning::WeakOutline) && (has(FindWarning::Unlikely) || has(FindWarning::OddShape))
}

/// The hint for a frame of this quality in which nothing was found.
fn not_found(frame: &Photo, quality: &Quality) -> Hint {
    let flaws = quality.flaws(frame.factor());
    if flaws.contains(&Flaw::Dark) {
        Hint::Dark
    } else if flaws.contains(&Flaw::Glare) {
        Hint::Glare
    } else {
        Hint::Nothing
    }
}

/// The hint for a frame in which the search found nothing: light and darkness are judged in half its size.
fn nothing_in(frame: &Photo) -> Hint {
    Photo::from_gray(frame.full().shrunk(2)).map_or(Hint::Nothing, |half| not_found(&half, &Quality::of_photo(&half)))
}

/// The ± to be expected of the picture that would be taken.
struct Expected {
    /// Relative ± of a length of [`SPAN_MM`] in the middle of the picture.
    whole: f64,
    /// The same for exact marks: of the object's own size, its thickness, and the lean of a disc.
    own: f64,
    /// Viewing angle, in degrees.
    tilt: f64,
}

impl Expected {
    /// For an object that lies on the measured face; `None` where the outline gives no scale.
    fn of(reference: &Reference, outline: &ReferenceOutline, frame: Frame, still: f64) -> Option<Self> {
        let outline = enlarged(outline, still);
        let frame = Frame::new(frame.width * still, frame.height * still);
        let thickness = reference.thickness();
        let on_face = Measured::new(
            Length::from_mm(-thickness.value.mm()),
            Length::from_mm(thickness.plus_minus.mm()),
            Origin::Typical,
        );
        let usual = Options {
            height: on_face,
            ..Options::default()
        };
        let exact = Options {
            reference_noise: 0.0,
            point_noise: 0.0,
            ..usual
        };
        let scale = Scale::new(frame, reference, &outline, &usual).ok()?;
        let own = Scale::new(frame, reference, &outline, &exact).ok()?;
        Some(Self {
            whole: relative(&scale, frame)?,
            own: relative(&own, frame)?,
            tilt: scale.viewing_angle.map_or(0.0, |angle| angle.degrees()),
        })
    }
}

/// The larger relative ± of two lengths of [`SPAN_MM`] in the middle of the picture, across and down.
fn relative(scale: &Scale, frame: Frame) -> Option<f64> {
    let middle = frame.centre();
    let half = scale.pixels_per_mm(middle)? * SPAN_MM / 2.0;
    let of = |half: Point| {
        let length = distance(scale, middle - half, middle + half).ok()?.length;
        Some(length.plus_minus.mm() / length.value.mm())
    };
    Some(of(Point::new(half, 0.0))?.max(of(Point::new(0.0, half))?))
}

/// An outline in a picture that is larger by a factor.
fn enlarged(outline: &ReferenceOutline, by: f64) -> ReferenceOutline {
    let at = |place: Point| Point::new((place.x + 0.5) * by - 0.5, (place.y + 0.5) * by - 0.5);
    match outline {
        ReferenceOutline::Rectangle(corners) => ReferenceOutline::Rectangle(corners.map(at)),
        ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } => ReferenceOutline::Ellipse {
            centre: at(*centre),
            half_axes: (half_axes.0 * by, half_axes.1 * by),
            angle: *angle,
        },
        ReferenceOutline::Lattice(corners) => {
            ReferenceOutline::Lattice(corners.iter().map(|(c, r, place)| (*c, *r, at(*place))).collect())
        }
        ReferenceOutline::Marks(points) => ReferenceOutline::Marks(points.map(at)),
    }
}

/// Places by which an outline is compared with that of another frame: corners; of an ellipse the ends of
/// its extent across and down, as its axes turn freely where it is nearly round.
fn places(outline: &ReferenceOutline) -> Vec<Point> {
    match outline {
        ReferenceOutline::Rectangle(corners) => corners.to_vec(),
        ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let (sine, cosine) = angle.sin_cos();
            let across = (half_axes.0 * cosine).hypot(half_axes.1 * sine);
            let down = (half_axes.0 * sine).hypot(half_axes.1 * cosine);
            let ends = [(across, 0.0), (-across, 0.0), (0.0, down), (0.0, -down)];
            ends.map(|(x, y)| *centre + Point::new(x, y)).to_vec()
        }
        ReferenceOutline::Lattice(corners) => corners.iter().map(|(_, _, place)| *place).collect(),
        ReferenceOutline::Marks(points) => points.to_vec(),
    }
}

/// How far an outline has moved, in pixels: the median distance of its places from the nearest ones of the
/// other outline. The numbering of corners may differ, and of a lattice single corners may come and go.
fn movement(from: &ReferenceOutline, to: &ReferenceOutline) -> f64 {
    let from = places(from);
    let nearest = |place: &Point| {
        from.iter()
            .map(|other| other.distance(*place))
            .fold(f64::INFINITY, f64::min)
    };
    let mut ways: Vec<f64> = places(to).iter().map(nearest).collect();
    ways.sort_by(f64::total_cmp);
    ways.get(ways.len() / 2).copied().unwrap_or(f64::INFINITY)
}

/// Share of saturated positions on a grid inside an outline.
fn saturated(gray: &Gray, outline: &ReferenceOutline) -> f64 {
    const COUNT: usize = 16;
    /// Grey value from which a pixel counts as saturated.
    const WHITE: u8 = 253;
    let part = |index: usize| (index as f64 + 0.5) / COUNT as f64;
    let place = |u: f64, v: f64| match outline {
        ReferenceOutline::Rectangle([a, b, c, d]) => {
            let (upper, lower) = (*a + (*b - *a) * u, *d + (*c - *d) * u);
            Some(upper + (lower - upper) * v)
        }
        ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let (x, y) = (2.0 * u - 1.0, 2.0 * v - 1.0);
            let (sine, cosine) = angle.sin_cos();
            let (along, across) = (x * half_axes.0, y * half_axes.1);
            (x.hypot(y) <= 1.0)
                .then_some(*centre + Point::new(along * cosine - across * sine, along * sine + across * cosine))
        }
        // Light squares of a print are white paper.
        ReferenceOutline::Lattice(_) | ReferenceOutline::Marks(_) => None,
    };
    let inside = (0..COUNT * COUNT).filter_map(|index| place(part(index % COUNT), part(index / COUNT)));
    let (mut white, mut all) = (0_usize, 0_usize);
    for place in inside {
        let (x, y) = place.pixel();
        let row = gray.row(usize::try_from(y).unwrap_or(0));
        let value = row.get(usize::try_from(x).unwrap_or(0)).copied().unwrap_or(0);
        all += 1;
        white += usize::from(value >= WHITE);
    }
    white as f64 / all.max(1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A hint is shown at once where there was none, afterwards when it has come in three frames in a row.
    #[test]
    fn a_hint_holds_for_several_frames() {
        let mut view = LiveView::new(Reference::Card);
        let mut shown = |hints: &[Hint]| hints.iter().map(|hint| view.held(*hint)).collect::<Vec<_>>();
        let (closer, tilt) = (Hint::Closer, Hint::Tilt);
        assert_eq!(shown(&[closer, tilt, closer, tilt, tilt]), [closer; 5]);
        assert_eq!(
            shown(&[closer, tilt, tilt, tilt, tilt]),
            [closer, closer, closer, tilt, tilt]
        );
    }

    /// Corners are numbered from anywhere; what counts is where they lie.
    #[test]
    fn movement_is_of_the_places() {
        let corners = [
            Point::new(10.0, 10.0),
            Point::new(90.0, 10.0),
            Point::new(90.0, 60.0),
            Point::new(10.0, 60.0),
        ];
        let [a, b, c, d] = corners;
        let still = ReferenceOutline::Rectangle(corners);
        assert_eq!(movement(&still, &ReferenceOutline::Rectangle([c, d, a, b])), 0.0);
        let moved = corners.map(|corner| corner + Point::new(3.0, 4.0));
        assert_eq!(movement(&still, &ReferenceOutline::Rectangle(moved)), 5.0);
    }

    /// Luma of pure red, green, blue and white by ITU-R BT.601: 0.299, 0.587, 0.114 and 1 of 255.
    #[test]
    fn a_frame_is_grey_by_the_standard() {
        let colours = [
            [255, 0, 0, 255],
            [0, 255, 0, 255],
            [0, 0, 255, 255],
            [255, 255, 255, 255],
        ];
        let pixels: Vec<u8> = (0..64 * 64).flat_map(|index| colours[index % 4]).collect();
        let frame = frame_of_rgba(64, 64, &pixels).unwrap();
        assert_eq!(frame.full().row(0)[..4], [76, 150, 29, 255]);
        assert!(frame_of_rgba(64, 63, &pixels).is_none());
        assert!(frame_of_rgba(8, 8, &pixels[..256]).is_none());
    }

    /// A bright quadrilateral with these corners on a dark ground, 640 × 480.
    fn drawn(corners: [(f64, f64); 4]) -> Photo {
        let inside = |x: f64, y: f64| {
            (0..4).all(|index| {
                let (a, b) = (corners[index], corners[(index + 1) % 4]);
                (b.0 - a.0) * (y - a.1) - (b.1 - a.1) * (x - a.0) > 0.0
            })
        };
        let value = |index: usize| {
            if inside((index % 640) as f64, (index / 640) as f64) {
                200
            } else {
                60
            }
        };
        Photo::from_gray(Gray::new(640, 480, (0..640 * 480).map(value).collect()).unwrap()).unwrap()
    }

    /// Of a bent card one side looks shorter than its opposite, more than any lean could make it.
    #[test]
    fn a_bent_card_is_to_lie_flat() {
        let own = Reference::Rectangle {
            width: Measured::exact(Length::from_mm(90.0), Origin::Calipers),
            height: Measured::exact(Length::from_mm(60.0), Origin::Calipers),
        };
        let hint = |short: f64| {
            let upper = [(170.0 + short, 140.0), (470.0 - short, 140.0)];
            let frame = drawn([upper[0], upper[1], (470.0, 340.0), (170.0, 340.0)]);
            LiveView::new(own).next(&frame, 4.0).hint
        };
        assert_eq!(hint(12.0), Hint::Flat);
        // Nobody knows yet whether it moves.
        assert_eq!(hint(0.0), Hint::Still);
    }
}
