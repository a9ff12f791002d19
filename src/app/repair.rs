//! A job that cannot be evaluated, set back part by part until it can.

use super::evaluation::evaluate;
use super::guard::guarded;
use super::start::{goal_of, new_job};
use super::workspace::{Workspace, WorkspaceError};
use crate::job::{Conditions, Core, JobFile, JobId, Reading, fields};
use crate::magnetics::circuit::mains::OUTLETS;
use crate::store::Op;

/// The part of a job that was set back; those before it in this list were too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SetBack {
    /// The chosen winding.
    Winding,
    /// How it is run: steel, idle tests, diodes, the pair.
    Conditions,
    /// Each reading's ±, to the usual one.
    Spreads,
    /// The targets, to the usual ones of the use.
    Targets,
    /// The core's measures, to typical ones.
    Measures,
}

impl SetBack {
    const ALL: [SetBack; 5] = [
        SetBack::Winding,
        SetBack::Conditions,
        SetBack::Spreads,
        SetBack::Targets,
        SetBack::Measures,
    ];

    /// The id of the text that names it.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            SetBack::Winding => "ui-repaired-winding",
            SetBack::Conditions => "ui-repaired-conditions",
            SetBack::Spreads => "ui-repaired-spreads",
            SetBack::Targets => "ui-repaired-targets",
            SetBack::Measures => "ui-repaired-measures",
        }
    }

    fn apply(self, file: &mut JobFile) {
        match self {
            SetBack::Winding => file.choice = None,
            SetBack::Conditions => file.conditions = Conditions::default(),
            SetBack::Spreads => usual_spreads(&mut file.core),
            SetBack::Targets => file.goal = goal_of(file.goal.word()),
            SetBack::Measures => {
                let outlet = OUTLETS.iter().find(|outlet| outlet.word == file.mains.circuit.plug);
                let typical = new_job(&file.name, outlet.unwrap_or(&OUTLETS[0]));
                file.core = typical.core;
                file.mains = typical.mains;
            }
        }
    }
}

/// The job with as little set back as lets `evaluates` accept it, and the last part that was; `None`
/// where nothing helps.
#[must_use]
pub fn repaired(file: &JobFile, evaluates: impl Fn(&JobFile) -> bool) -> Option<(JobFile, SetBack)> {
    let mut file = file.clone();
    SetBack::ALL.into_iter().find_map(|part| {
        part.apply(&mut file);
        evaluates(&file).then(|| (file.clone(), part))
    })
}

/// Gives the core's readings the usual ± of their fields.
fn usual_spreads(core: &mut Core) {
    let set = |path: &str, reading: &mut Reading| {
        if let Some(field) = fields::find(path) {
            reading.plus_minus = field.default_plus_minus(reading.value);
        }
    };
    let primary = &mut core.primary;
    for (path, reading) in [
        ("core.tongue_mm", &mut core.tongue_mm),
        ("core.stack_mm", &mut core.stack_mm),
        ("core.window_width_mm", &mut core.window_width_mm),
        ("core.window_height_mm", &mut core.window_height_mm),
        ("core.primary.height_mm", &mut primary.height_mm),
        ("core.primary.resistance_at_c", &mut primary.resistance_at_c),
    ] {
        set(path, reading);
    }
    for (path, reading) in [
        ("core.outer_limb_mm", &mut core.outer_limb_mm),
        ("core.yoke_mm", &mut core.yoke_mm),
        ("core.stacking_factor", &mut core.stacking_factor),
        ("core.mass_kg", &mut core.mass_kg),
        ("core.shunt_thickness_mm", &mut core.shunt_thickness_mm),
        ("core.shunt_width_mm", &mut core.shunt_width_mm),
        ("core.shunt_gap_mm", &mut core.shunt_gap_mm),
        ("core.seam_gap_mm", &mut core.seam_gap_mm),
        ("core.primary.wire_diameter_mm", &mut primary.wire_diameter_mm),
        ("core.primary.build_mm", &mut primary.build_mm),
        ("core.primary.resistance_ohm", &mut primary.resistance_ohm),
        ("core.primary.idle_current_a", &mut primary.idle_current_a),
        ("core.primary.counted_turns", &mut primary.counted_turns),
    ] {
        if let Some(reading) = reading {
            set(path, reading);
        }
    }
}

impl Workspace {
    /// Sets a job back until `evaluates` accepts it, as one step of undo; `None`, and nothing is
    /// changed, where nothing helps.
    ///
    /// # Errors
    /// The job cannot be read or written.
    pub fn repair_job(
        &mut self,
        id: JobId,
        evaluates: impl Fn(&JobFile) -> bool,
    ) -> Result<Option<SetBack>, WorkspaceError> {
        let Some((file, part)) = repaired(&self.store.job_file(id)?, evaluates) else {
            return Ok(None);
        };
        self.change(id, Op::Repair, |stored| {
            *stored = file;
            Ok(())
        })?;
        Ok(Some(part))
    }
}

/// Whether a job can be evaluated.
#[must_use]
pub fn can_be_evaluated(file: &JobFile) -> bool {
    matches!(guarded(|| evaluate(file).is_ok()), Ok(true))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::start::demo_job;
    use crate::job::{Choice, Pinned, Placement, WireMetal};

    fn with_unknown_wire() -> JobFile {
        let choice = Choice {
            turns: 12,
            conductor: "no-such-wire".to_owned(),
            parallel: 1,
            metal: WireMetal::Copper,
            placement: Placement::BesidePrimary,
            ground_mm: 1.0,
            interlayer_mm: 0.2,
            pinned: Pinned::default(),
        };
        JobFile {
            choice: Some(choice),
            ..demo_job()
        }
    }

    #[test]
    fn no_more_is_set_back_than_must_be() {
        let broken = with_unknown_wire();
        assert!(!can_be_evaluated(&broken));
        let (file, part) = repaired(&broken, can_be_evaluated).unwrap();
        assert_eq!(part, SetBack::Winding);
        assert_eq!(file, demo_job());
        let wide = |file: &JobFile| file.core.tongue_mm.plus_minus > 0.15;
        let (file, part) = repaired(&broken, |file| !wide(file)).unwrap();
        assert_eq!(part, SetBack::Spreads);
        assert_eq!(file.core.tongue_mm.value, demo_job().core.tongue_mm.value);
        assert_eq!(repaired(&broken, |_| false), None);
    }
}
