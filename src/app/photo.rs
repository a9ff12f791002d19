//! Lengths from a photo: from what is stored of it to the core's dimensions and back.

use super::shop::{Shop, ShopError};
use crate::job::{
    DimensionMark, JobFile, JobId, PhotoFound, PhotoId, PhotoMarks, PhotoReference, Place, Reading, fields,
};
use crate::photo::find::find_reference;
use crate::photo::snap::snap;
use crate::photo::suggest::suggest_face;
use crate::photo::{
    Coin, Dimension, Focal, Found, Frame, Gray, Lens, LensError, Mark, Marks, Options, Paper, Photo, Point, Reference,
    Shape, Sheet, Span, rectangle_by_hand,
};
use crate::quantity::{Length, Origin, Widener};
use crate::store::CorePhoto;

/// How well a corner set by hand sits, in pixels (half-width at about 95 %). Common practice, no
/// source.
const HAND_NOISE: f64 = 3.0;
/// Points along a straight edge that a bend shows in.
pub const ENOUGH_POINTS: usize = 3;

/// A photo that is open on the screen.
#[derive(Debug)]
pub struct Opened {
    photo: Photo,
    /// The upright picture in grey, reduced for the screen, as PNG.
    pub png: Vec<u8>,
}

impl Opened {
    /// Opens a photo.
    ///
    /// # Errors
    /// A sentence for the person: no JPEG or PNG, too large or too small, damaged.
    pub fn new(bytes: &[u8]) -> Result<Self, String> {
        let photo = Photo::decode(bytes).map_err(|error| error.to_string())?;
        let png = gray_png(
            photo.working(),
            (0, 0),
            (photo.working().width(), photo.working().height()),
        )?;
        Ok(Self { photo, png })
    }

    /// Width and height of the photo, in pixels.
    #[must_use]
    pub fn frame(&self) -> [f64; 2] {
        let full = self.photo.full();
        [full.width() as f64, full.height() as f64]
    }

    /// Fresh marks for this photo.
    #[must_use]
    pub fn fresh(&self, reference: PhotoReference) -> PhotoMarks {
        let height_mm = on_face(&reference);
        PhotoMarks {
            frame: self.frame(),
            focal_35mm: self.photo.focal_35mm(),
            reference,
            found: None,
            height_mm,
            face: None,
            straight: Vec::new(),
            marks: Vec::new(),
        }
    }

    /// Looks for the object of known size.
    ///
    /// # Errors
    /// A sentence for the person that says how to mark it by hand.
    pub fn find(&self, reference: &PhotoReference) -> Result<Seen, String> {
        let reference = reference_of(reference)?;
        let candidate = find_reference(&self.photo, &reference).map_err(|error| error.to_string())?;
        Ok(Seen {
            found: record(&candidate.found),
            doubts: candidate.warnings.iter().map(|warning| warning.word()).collect(),
            doubtful: candidate.trust == crate::photo::find::Trust::Doubtful,
        })
    }

    /// The strongest edge near a place, or the place itself.
    #[must_use]
    pub fn snapped(&self, place: Place) -> Place {
        let radius = (self.frame()[0].max(self.frame()[1]) / 200.0).max(4.0);
        snap(self.photo.full(), point(place), None, radius).map_or(place, |found| [found.place.x, found.place.y])
    }

    /// The core's parts as they probably lie inside a face's four corners; empty where they
    /// cannot be told.
    #[must_use]
    pub fn suggested(&self, face: [Place; 4]) -> Vec<DimensionMark> {
        let Some(found) = suggest_face(self.photo.full(), &face.map(point)) else {
            return Vec::new();
        };
        [
            (Dimension::Tongue, found.tongue),
            (Dimension::WindowWidth, found.left_window),
            (Dimension::WindowWidth, found.right_window),
            (Dimension::WindowHeight, found.window_height),
        ]
        .into_iter()
        .map(|(dimension, [a, b])| {
            // The proposal takes the face as symmetric; the edges themselves need not be.
            let reach = a.distance(b) * 0.12;
            let edge = |p: Point| snap(self.photo.full(), p, Some(b - a), reach).map_or(p, |found| found.place);
            let (a, b) = (edge(a), edge(b));
            DimensionMark {
                dimension: dimension.word().to_owned(),
                points: [[a.x, a.y], [b.x, b.y]],
            }
        })
        .collect()
    }

    /// What lies round a place, each pixel of the photo as it is, as PNG of `side` pixels square;
    /// and the place's own position in it.
    ///
    /// # Errors
    /// A sentence where it cannot be drawn.
    pub fn closeup(&self, place: Place, side: usize) -> Result<(Vec<u8>, Place), String> {
        let full = self.photo.full();
        let start = |at: f64, most: usize| {
            let first = (at - side as f64 / 2.0).round().max(0.0) as usize;
            first.min(most.saturating_sub(side))
        };
        let (x, y) = (start(place[0], full.width()), start(place[1], full.height()));
        let size = (side.min(full.width()), side.min(full.height()));
        let png = gray_png(full, (x, y), size)?;
        Ok((png, [place[0] - x as f64, place[1] - y as f64]))
    }
}

/// A part of a grey picture as PNG.
fn gray_png(gray: &Gray, from: (usize, usize), size: (usize, usize)) -> Result<Vec<u8>, String> {
    let failed = |error: png::EncodingError| format!("The picture cannot be shown: {error}.");
    let mut bytes = Vec::new();
    let side = |pixels: usize| u32::try_from(pixels).unwrap_or(u32::MAX);
    let mut encoder = png::Encoder::new(&mut bytes, side(size.0), side(size.1));
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    let mut writer = encoder.write_header().map_err(failed)?;
    let mut pixels = Vec::with_capacity(size.0 * size.1);
    for y in from.1..from.1 + size.1 {
        pixels.extend_from_slice(gray.row(y).get(from.0..from.0 + size.0).unwrap_or_default());
    }
    writer.write_image_data(&pixels).map_err(failed)?;
    writer.finish().map_err(failed)?;
    Ok(bytes)
}

/// The object as it was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// Where it lies.
    pub found: PhotoFound,
    /// Words of what speaks against it or against the photo.
    pub doubts: Vec<&'static str>,
    /// True where a person must compare it with the picture.
    pub doubtful: bool,
}

/// A dimension of the core from a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoRow {
    /// Which: the word of the dimension.
    pub dimension: &'static str,
    /// The number of the job that it is for.
    pub path: &'static str,
    /// Millimetres, ± and origin; or why there is none.
    pub reading: Result<Reading, String>,
    /// What widens it most.
    pub wideners: Vec<Widener>,
}

/// What the marks on a photo come to.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoAnswer {
    /// The core's dimensions.
    pub rows: Vec<PhotoRow>,
    /// What makes them worse than they could be, as sentences.
    pub warnings: Vec<String>,
    /// Between the line of sight and the face's normal, in degrees, where it is told.
    pub leaning: Option<f64>,
    /// The lens's distortion at the picture's corner and its ±, in per cent, where straight edges
    /// or the printed target showed it.
    pub lens: Option<[f64; 2]>,
}

/// The core's dimensions from what was marked.
///
/// # Errors
/// A sentence for the person where the marks give no scale.
pub fn measured(marks: &PhotoMarks) -> Result<PhotoAnswer, String> {
    let (marks, bent) = marks_of(marks)?;
    let scale = marks.scale().map_err(|error| sentence(&error.to_string()))?;
    let rows = marks
        .readings(&scale)
        .into_iter()
        .map(|(dimension, found)| {
            let (reading, wideners) = match found {
                Ok(found) => {
                    let length = found.length.length;
                    let reading = Reading::new(length.value.mm(), length.plus_minus.mm(), Origin::Photo);
                    (Ok(reading), found.length.wideners)
                }
                Err(error) => (Err(sentence(&error.to_string())), Vec::new()),
            };
            PhotoRow {
                dimension: dimension.word(),
                path: path_of(dimension),
                reading,
                wideners,
            }
        })
        .collect();
    Ok(PhotoAnswer {
        rows,
        warnings: scale
            .warnings
            .iter()
            .map(|warning| warning.to_string())
            .chain(bent.map(|error| error.to_string()))
            .map(|text| sentence(&text))
            .collect(),
        lens: (scale.lens != Lens::default()).then_some([100.0 * scale.lens.k, 100.0 * scale.lens.plus_minus]),
        leaning: scale.viewing_angle.map(|angle| angle.degrees()),
    })
}

const fn path_of(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Tongue => "core.tongue_mm",
        Dimension::Stack => "core.stack_mm",
        Dimension::WindowWidth => "core.window_width_mm",
        Dimension::WindowHeight => "core.window_height_mm",
        Dimension::OuterLimb => "core.outer_limb_mm",
        Dimension::Yoke => "core.yoke_mm",
    }
}

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    let rest = letters.as_str();
    let end = if rest.ends_with('.') { "" } else { "." };
    format!("{first}{rest}{end}")
}

/// The height of a reference that lies on the measured face: minus its thickness.
#[must_use]
pub fn on_face(reference: &PhotoReference) -> Reading {
    let thickness = reference_of(reference).map(|reference| reference.thickness());
    thickness.map_or(Reading::new(0.0, 1.0, Origin::Typical), |t| {
        Reading::new(-t.value.mm(), t.plus_minus.mm().max(0.2), Origin::Typical)
    })
}

/// The points that a person moves to correct where the object lies: a rectangle's corners, the ends
/// of an outline's long and short axis, a rule's marks; none for the printed target.
#[must_use]
pub fn handles(found: &PhotoFound) -> Vec<Place> {
    match found {
        PhotoFound::Rectangle { corners } => corners.to_vec(),
        PhotoFound::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let along = |length: f64, angle: f64| [centre[0] + length * angle.cos(), centre[1] + length * angle.sin()];
            let across = angle + std::f64::consts::FRAC_PI_2;
            vec![
                along(half_axes[0], *angle),
                along(-half_axes[0], *angle),
                along(half_axes[1], across),
                along(-half_axes[1], across),
            ]
        }
        PhotoFound::Marks { points } => points.to_vec(),
        PhotoFound::Lattice { .. } => Vec::new(),
    }
}

/// Where the handles begin for an object that was not found: about the middle of the photo.
#[must_use]
pub fn first_handles(marks: &PhotoMarks) -> Option<PhotoFound> {
    let [w, h] = marks.frame;
    let at = |x: f64, y: f64| [w * x, h * y];
    Some(match reference_of(&marks.reference).ok()?.shape() {
        Shape::Rectangle { .. } => PhotoFound::Rectangle {
            corners: [at(0.35, 0.4), at(0.65, 0.4), at(0.65, 0.6), at(0.35, 0.6)],
        },
        Shape::Disc { .. } => PhotoFound::Ellipse {
            centre: at(0.5, 0.5),
            half_axes: [w.min(h) * 0.1, w.min(h) * 0.1],
            angle: 0.0,
        },
        Shape::Marks { .. } => PhotoFound::Marks {
            points: [at(0.3, 0.5), at(0.7, 0.5)],
        },
        Shape::Lattice { .. } => return None,
    })
}

/// Where the object lies, after a handle was moved.
#[must_use]
pub fn moved(found: &PhotoFound, handle: usize, place: Place) -> PhotoFound {
    let mut points = handles(found);
    if let Some(point) = points.get_mut(handle) {
        *point = place;
    }
    match (found, points.as_slice()) {
        (PhotoFound::Rectangle { .. }, &[a, b, c, d]) => PhotoFound::Rectangle { corners: [a, b, c, d] },
        (PhotoFound::Marks { .. }, &[a, b]) => PhotoFound::Marks { points: [a, b] },
        (
            PhotoFound::Ellipse {
                centre,
                half_axes,
                angle,
            },
            _,
        ) => {
            let out = [place[0] - centre[0], place[1] - centre[1]];
            let reach = out[0].hypot(out[1]).max(1.0);
            // An end of the long axis turns and stretches it; an end of the short one only stretches.
            let (long, short, turn) = match handle {
                0 => (reach, half_axes[1], out[1].atan2(out[0])),
                1 => (reach, half_axes[1], (-out[1]).atan2(-out[0])),
                _ => (half_axes[0], reach, *angle),
            };
            PhotoFound::Ellipse {
                centre: *centre,
                half_axes: [long, short],
                angle: turn,
            }
        }
        _ => found.clone(),
    }
}

/// An outline moved as a whole, so that its middle is at a place; others stay.
#[must_use]
pub fn moved_whole(found: &PhotoFound, place: Place) -> PhotoFound {
    match found {
        PhotoFound::Ellipse { half_axes, angle, .. } => PhotoFound::Ellipse {
            centre: place,
            half_axes: *half_axes,
            angle: *angle,
        },
        other => other.clone(),
    }
}

fn point(place: Place) -> Point {
    Point::new(place[0], place[1])
}

fn mm(reading: &Reading) -> crate::quantity::Measured<Length> {
    reading.measured(Length::from_mm)
}

fn reference_of(reference: &PhotoReference) -> Result<Reference, String> {
    let unknown = |what: &str, word: &str| format!("There is no {what} \"{word}\". Choose one of the list.");
    let made = match reference {
        PhotoReference::Card => Reference::Card,
        PhotoReference::Paper { size } => {
            Reference::Paper(Paper::from_word(size).ok_or_else(|| unknown("paper", size))?)
        }
        PhotoReference::Coin { coin } => Reference::Coin(Coin::from_word(coin).ok_or_else(|| unknown("coin", coin))?),
        PhotoReference::Rectangle { width_mm, height_mm } => Reference::Rectangle {
            width: mm(width_mm),
            height: mm(height_mm),
        },
        PhotoReference::Disc { diameter_mm } => Reference::Disc {
            diameter: mm(diameter_mm),
        },
        PhotoReference::Rule { length_mm } => Reference::Rule { length: mm(length_mm) },
        PhotoReference::Target { sheet, check_mm } => Reference::Target {
            sheet: Sheet::from_word(sheet).ok_or_else(|| unknown("sheet", sheet))?,
            check_line: mm(check_mm),
        },
    };
    made.check().map_err(|error| sentence(&error.to_string()))?;
    Ok(made)
}

fn record(found: &Found) -> PhotoFound {
    let place = |p: &Point| [p.x, p.y];
    match found {
        Found::Rectangle(corners) => PhotoFound::Rectangle {
            corners: corners.map(|p| [p.x, p.y]),
        },
        Found::Ellipse {
            centre,
            half_axes,
            angle,
        } => PhotoFound::Ellipse {
            centre: place(centre),
            half_axes: [half_axes.0, half_axes.1],
            angle: *angle,
        },
        Found::Lattice(corners) => PhotoFound::Lattice {
            corners: corners.iter().map(|(c, r, p)| (*c, *r, p.x, p.y)).collect(),
        },
        Found::Marks(points) => PhotoFound::Marks {
            points: points.map(|p| [p.x, p.y]),
        },
    }
}

/// The lens that marked straight edges show, from anything up to a strong wide angle. What a
/// telephone leaves is assumed where they agree with it: that narrows the answer.
fn lens_of(frame: Frame, edges: &[Vec<Place>]) -> Result<Lens, LensError> {
    let edges: Vec<Vec<Point>> = edges
        .iter()
        .map(|edge| edge.iter().copied().map(point).collect())
        .collect();
    let usual = Lens::default();
    if !edges.iter().any(|edge| edge.len() >= ENOUGH_POINTS) {
        return Ok(usual);
    }
    let noise = Options::default().point_noise;
    let alone = Lens::from_edges(frame, &edges, Lens::UNKNOWN, noise)?;
    if alone.k.abs() > usual.plus_minus + alone.plus_minus {
        return Ok(alone);
    }
    Lens::from_edges(frame, &edges, usual, noise)
}

/// The marks, and why the lens could not be had where straight edges were marked in vain.
fn marks_of(marks: &PhotoMarks) -> Result<(Marks, Option<LensError>), String> {
    let frame = Frame::new(marks.frame[0], marks.frame[1]);
    let reference = reference_of(&marks.reference)?;
    let focal = marks.focal_35mm.map(|mm| Focal::from_35mm(frame, mm));
    let stored = marks.found.as_ref().ok_or("Mark the object of known size first.")?;
    let found = match stored {
        // Corners may have been set in any order.
        PhotoFound::Rectangle { corners } => {
            rectangle_by_hand(frame, &reference, corners.map(point), HAND_NOISE, focal)
                .map_err(|error| sentence(&error.to_string()))?
        }
        PhotoFound::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let (long, short, angle) = if half_axes[0] >= half_axes[1] {
                (half_axes[0], half_axes[1], *angle)
            } else {
                (half_axes[1], half_axes[0], angle + std::f64::consts::FRAC_PI_2)
            };
            Found::Ellipse {
                centre: point(*centre),
                half_axes: (long, short),
                angle,
            }
        }
        PhotoFound::Lattice { corners } => Found::Lattice(
            corners
                .iter()
                .map(|(c, r, x, y)| (*c, *r, Point::new(*x, *y)))
                .collect(),
        ),
        PhotoFound::Marks { points } => Found::Marks(points.map(point)),
    };
    let lens = lens_of(frame, &marks.straight);
    let options = Options {
        height: mm(&marks.height_mm),
        focal,
        lens: lens.unwrap_or(Lens::UNKNOWN),
        face: marks.face.map(|corners| corners.map(point)),
        ..Options::default()
    };
    let unknown = |word: &str| format!("There is no dimension \"{word}\".");
    let spans: Result<Vec<Mark>, String> = marks
        .marks
        .iter()
        .map(|mark| {
            Ok(Mark {
                dimension: Dimension::from_word(&mark.dimension).ok_or_else(|| unknown(&mark.dimension))?,
                span: Span::Points(mark.points.map(point)),
            })
        })
        .collect();
    let marks = Marks {
        frame,
        reference,
        found,
        options,
        marks: spans?,
    };
    Ok((marks, lens.err()))
}

impl Shop {
    /// The photos of a job's core.
    ///
    /// # Errors
    /// What the disk says.
    pub fn core_photos(&self, job: JobId) -> Result<Vec<CorePhoto>, ShopError> {
        Ok(self.store.core_photos(self.store.job(job)?.body.core)?)
    }

    /// Keeps a photo with a job's core.
    ///
    /// # Errors
    /// Not a JPEG or PNG, or too large; nothing is saved then.
    pub fn add_core_photo(&mut self, job: JobId, bytes: &[u8]) -> Result<PhotoId, ShopError> {
        let core = self.store.job(job)?.body.core;
        Ok(self.store.add_core_photo(core, bytes)?)
    }

    /// A photo's bytes.
    ///
    /// # Errors
    /// The photo is gone.
    pub fn core_photo_bytes(&self, id: PhotoId) -> Result<Vec<u8>, ShopError> {
        Ok(self.store.core_photo_bytes(id)?)
    }

    /// Keeps what was marked on a photo.
    ///
    /// # Errors
    /// The photo is gone; what the disk says.
    pub fn set_marks(&mut self, id: PhotoId, marks: &PhotoMarks) -> Result<(), ShopError> {
        Ok(self.store.set_marks(id, marks)?)
    }

    /// Puts lengths from a photo into a job's core, as one step of undo.
    ///
    /// # Errors
    /// Names the first that is outside its range; nothing is changed then.
    pub fn take_lengths(&mut self, job: JobId, rows: &[(&'static str, Reading)]) -> Result<(), ShopError> {
        for (path, reading) in rows {
            let field = fields::find(path).ok_or_else(|| ShopError::UnknownField((*path).to_owned()))?;
            field.check(field.label, reading.value, reading.plus_minus)?;
        }
        self.change(job, "Take lengths from the photo", |file: &mut JobFile| {
            for (path, reading) in rows {
                let core = &mut file.core;
                match *path {
                    "core.tongue_mm" => core.tongue_mm = *reading,
                    "core.stack_mm" => core.stack_mm = *reading,
                    "core.window_width_mm" => core.window_width_mm = *reading,
                    "core.window_height_mm" => core.window_height_mm = *reading,
                    "core.outer_limb_mm" => core.outer_limb_mm = Some(*reading),
                    _ => core.yoke_mm = Some(*reading),
                }
            }
            Ok(())
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RENDERED: &[u8] = include_bytes!("../../tests/reference/photo/rectangle.png");

    /// The rendered rectangle's own sides come out again as they went in, and what is stored of the
    /// marks comes back the same.
    #[test]
    fn a_rectangle_measures_itself() {
        let opened = Opened::new(RENDERED).unwrap();
        let own = |mm: f64| Reading::new(mm, 0.1, Origin::Calipers);
        let reference = PhotoReference::Rectangle {
            width_mm: own(60.0),
            height_mm: own(40.0),
        };
        let mut marks = opened.fresh(reference);
        marks.height_mm = Reading::new(0.0, 0.1, Origin::Chosen);
        let seen = opened.find(&marks.reference).unwrap();
        let PhotoFound::Rectangle { corners } = seen.found.clone() else {
            panic!("{seen:?}")
        };
        marks.found = Some(seen.found);
        marks.marks = vec![
            DimensionMark {
                dimension: "tongue".to_owned(),
                points: [corners[0], corners[1]],
            },
            DimensionMark {
                dimension: "stack".to_owned(),
                points: [corners[1], corners[2]],
            },
        ];
        let again: PhotoMarks = serde_json::from_str(&serde_json::to_string(&marks).unwrap()).unwrap();
        assert_eq!(again, marks);
        let answer = measured(&marks).unwrap();
        let mut sides: Vec<Reading> = answer.rows.iter().map(|row| *row.reading.as_ref().unwrap()).collect();
        sides.sort_by(|a, b| a.value.total_cmp(&b.value));
        for (side, truth) in sides.iter().zip([40.0, 60.0]) {
            assert!(
                (side.value - truth).abs() <= side.plus_minus && side.plus_minus < 3.0,
                "{side:?} for {truth}"
            );
            assert_eq!(side.origin, Origin::Photo);
        }
    }

    /// Edges bent by a lens of -5 % at the corner correct the lengths; the marks are stored with the
    /// photo and come back.
    #[test]
    fn straight_edges_tell_the_lens() {
        let frame = Frame::new(4000.0, 3000.0);
        let lens = Lens {
            k: -0.05,
            plus_minus: 0.0,
        };
        // Seen from straight above, ten pixels to the millimetre.
        let at = |x: f64, y: f64| {
            let place = lens.bent(frame, Point::new(x * 10.0, y * 10.0)).unwrap();
            [place.x, place.y]
        };
        let mut marks = PhotoMarks {
            frame: [4000.0, 3000.0],
            focal_35mm: None,
            reference: PhotoReference::Card,
            found: Some(PhotoFound::Rectangle {
                corners: [at(20.0, 20.0), at(105.6, 20.0), at(105.6, 73.98), at(20.0, 73.98)],
            }),
            height_mm: Reading::new(0.0, 0.1, Origin::Chosen),
            face: None,
            straight: Vec::new(),
            marks: vec![DimensionMark {
                dimension: "tongue".to_owned(),
                points: [at(250.0, 200.0), at(330.0, 240.0)],
            }],
        };
        let truth = 80.0_f64.hypot(40.0);
        let read = |marks: &PhotoMarks| measured(marks).unwrap().rows[0].reading.clone().unwrap();
        let bent = read(&marks);
        assert!((bent.value - truth).abs() > 1.5, "{bent:?}");
        for y in [10.0, 290.0] {
            marks
                .straight
                .push((0..6).map(|k| at(10.0 + 76.0 * f64::from(k), y)).collect());
        }
        let again: PhotoMarks = serde_json::from_str(&serde_json::to_string(&marks).unwrap()).unwrap();
        assert_eq!(again, marks);
        let straight = read(&again);
        assert!(
            (straight.value - truth).abs() < 0.4 && (straight.value - truth).abs() < straight.plus_minus,
            "{straight:?}"
        );
        let [k, half] = measured(&again).unwrap().lens.unwrap();
        assert!((k + 5.0).abs() < half.max(0.5) && half < 2.0, "{k} ± {half} %");
    }

    #[test]
    fn handles_move_what_they_hold() {
        let disc = PhotoFound::Ellipse {
            centre: [100.0, 100.0],
            half_axes: [50.0, 40.0],
            angle: 0.0,
        };
        let moved_up = moved(&disc, 2, [100.0, 190.0]);
        assert_eq!(handles(&moved_up)[2], [100.0, 190.0]);
        let PhotoFound::Ellipse { half_axes, .. } = moved_up else {
            panic!()
        };
        assert_eq!(half_axes, [50.0, 90.0]);
        let rule = PhotoFound::Marks {
            points: [[0.0, 0.0], [10.0, 0.0]],
        };
        assert_eq!(handles(&moved(&rule, 1, [20.0, 5.0])), [[0.0, 0.0], [20.0, 5.0]]);
    }

    #[test]
    fn trouble_is_a_sentence() {
        for (bytes, part) in [
            (&b"GIF89a"[..], "neither a JPEG nor a PNG"),
            (&RENDERED[..2000], "cut short"),
        ] {
            let message = Opened::new(bytes).unwrap_err();
            assert!(message.contains(part), "{message}");
        }
        let opened = Opened::new(RENDERED).unwrap();
        let coin = PhotoReference::Coin {
            coin: "shell-1".to_owned(),
        };
        assert!(opened.find(&coin).unwrap_err().contains("no coin"));
        assert!(
            measured(&opened.fresh(PhotoReference::Card))
                .unwrap_err()
                .contains("Mark the object")
        );
    }
}
