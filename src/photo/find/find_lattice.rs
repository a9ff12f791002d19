//! Finds the printed target in a photo.

use super::board;
use super::candidate::{Candidate, FindError, FindWarning};
use super::edges::Edges;
use super::find::candidate;
use super::found::Found;
use super::picture::Photo;
use super::quality::Quality;
use super::saddles;

/// Corners of the target that must be seen.
const LEAST_CORNERS: usize = 9;
/// Corners of the target below which the find is doubtful.
const FEW_CORNERS: usize = 16;

/// Looks for the printed target by its squares' corners.
pub(super) fn find_lattice(photo: &Photo) -> Result<Candidate, FindError> {
    let gray = photo.working();
    let rough = board::lattice(gray, &saddles::saddles(gray));
    let step = board::shortest_step(&rough).ok_or(FindError::Nothing)? * photo.factor() as f64;
    let radius = (0.4 * step).clamp(3.0, 14.0);
    let refined = rough
        .iter()
        .filter_map(|(at, corner)| Some((*at, saddles::refined(photo.full(), photo.to_full(*corner), radius)?)));
    let lattice = board::without_strays(refined.collect());
    let spans = |axis: fn(&(i32, i32)) -> i32| {
        let (least, most) = (lattice.keys().map(axis).min(), lattice.keys().map(axis).max());
        most.zip(least).is_some_and(|(most, least)| most - least >= 2)
    };
    if lattice.len() < LEAST_CORNERS || !spans(|at| at.0) || !spans(|at| at.1) {
        return Err(FindError::Nothing);
    }
    let quality = Quality::of(gray, &Edges::of(gray), photo.factor());
    let mut doubts = Vec::new();
    if lattice.len() < FEW_CORNERS {
        doubts.push(FindWarning::Small);
    }
    let rms = board::roughness(&lattice);
    let corners = lattice
        .into_iter()
        .map(|((column, row), corner)| (column, row, corner))
        .collect();
    Ok(candidate(photo, Found::Lattice(corners), rms, doubts, quality))
}
