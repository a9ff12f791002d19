//! What a file carries, how two shelves become one, and what never travels.

use std::path::PathBuf;

use curbcore::app::shop::{Entry, Shop};
use curbcore::app::travel::Sending;
use curbcore::job::JobId;
use curbcore::magnetics::mains::OUTLETS;
use curbcore::merge::Kind;
use curbcore::quantity::{LengthUnit, Origin};

/// A device with its folder.
pub struct Desk {
    pub shop: Shop,
    pub folder: tempfile::TempDir,
}

impl Desk {
    pub fn new(name: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut shop = Shop::open(folder.path()).unwrap();
        shop.name_device(name).unwrap();
        Self { shop, folder }
    }

    pub fn pack(&mut self, sending: &Sending) -> PathBuf {
        let path = self.folder.path().join("parcel.curbshelf");
        self.shop.write_shelf(&path, sending, |_| ()).unwrap();
        path
    }

    /// Takes in all that another device has.
    pub fn take_from(&mut self, other: &mut Desk) -> curbcore::store::Arrival {
        let path = other.pack(&Sending::All);
        self.shop.take_in_shelf(&path, |_| ()).unwrap().arrival
    }

    pub fn measure(&mut self, job: JobId, path: &str, text: &str) {
        let entry = Entry {
            path,
            text,
            plus_minus: "",
            origin: Some(Origin::Calipers),
        };
        self.shop.set_number(job, &entry, LengthUnit::Millimetre).unwrap();
    }

    pub fn name(&self, job: JobId) -> String {
        self.shop.job(job).unwrap().name
    }
}

/// Two devices that both have the demo job.
pub fn pair() -> (Desk, Desk, JobId) {
    let (mut phone, mut bench) = (Desk::new("phone"), Desk::new("bench"));
    let job = phone.shop.open_demo().unwrap();
    bench.take_from(&mut phone);
    (phone, bench, job)
}

#[test]
fn a_job_arrives_as_it_left() {
    let (phone, bench, job) = pair();
    let (there, here) = (phone.shop.job(job).unwrap(), bench.shop.job(job).unwrap());
    assert_eq!(there, here);
}

#[test]
fn the_same_file_twice_changes_nothing() {
    let (mut phone, mut bench, _) = pair();
    let again = bench.take_from(&mut phone);
    assert!(again.is_nothing(), "{again:?}");
    assert!(again.same > 0);
}

#[test]
fn changes_of_different_fields_come_together() {
    let (mut phone, mut bench, job) = pair();
    phone.shop.rename(job, "tab welder").unwrap();
    bench.shop.set_note(job, "heavy").unwrap();
    bench.measure(job, "core.tongue_mm", "36.5");
    bench.take_from(&mut phone);
    phone.take_from(&mut bench);
    for desk in [&phone, &bench] {
        let file = desk.shop.job(job).unwrap();
        assert_eq!((file.name.as_str(), file.note.as_str()), ("tab welder", "heavy"));
        assert_eq!(file.core.tongue_mm.value, 36.5);
        assert_eq!(desk.shop.fork_count(), 0);
    }
}

#[test]
fn two_values_of_one_field_are_both_kept_until_the_person_chooses() {
    let (mut phone, mut bench, job) = pair();
    phone.measure(job, "core.tongue_mm", "36.5");
    bench.measure(job, "core.tongue_mm", "35.0");
    let arrival = bench.take_from(&mut phone);
    assert_eq!(arrival.forked.len(), 1, "{arrival:?}");
    let forks = bench.shop.forks(10).unwrap();
    assert_eq!(forks.len(), 1);
    let values: Vec<f64> = forks[0].sides.iter().map(|side| side.value["value"].as_f64().unwrap()).collect();
    assert!(values.contains(&36.5) && values.contains(&35.0), "{values:?}");
    let names: Vec<&str> = forks[0].sides.iter().map(|side| side.device.as_str()).collect();
    assert!(names.contains(&"phone") && names.contains(&"bench"), "{names:?}");
    // Both devices show the same one meanwhile.
    phone.take_from(&mut bench);
    let shown = |desk: &Desk| desk.shop.job(job).unwrap().core.tongue_mm.value;
    assert_eq!(shown(&phone), shown(&bench));
    // The person takes the other one, and that goes back too.
    let other = forks[0].sides.iter().position(|side| side.value["value"] != shown(&bench)).unwrap();
    let wanted = values[other];
    bench.shop.settle_fork(forks[0].kind, forks[0].id, &forks[0].field, other).unwrap();
    assert_eq!((shown(&bench), bench.shop.fork_count()), (wanted, 0));
    // Undo brings the choice back.
    bench.shop.undo().unwrap();
    assert_eq!(bench.shop.fork_count(), 1);
    bench.shop.redo().unwrap();
    assert_eq!(bench.shop.fork_count(), 0);
    phone.take_from(&mut bench);
    assert_eq!((shown(&phone), phone.shop.fork_count()), (wanted, 0));
}

#[test]
fn what_was_removed_does_not_come_back() {
    let (mut phone, mut bench, job) = pair();
    bench.shop.rename(job, "changed meanwhile").unwrap();
    phone.shop.remove_job(job).unwrap();
    let arrival = bench.take_from(&mut phone);
    assert!(arrival.removed.iter().any(|(kind, name)| *kind == Kind::Job && name == "changed meanwhile"));
    assert!(bench.shop.job(job).is_err());
    phone.take_from(&mut bench);
    assert!(phone.shop.job(job).is_err());
    // Unless it is put back.
    phone.shop.undo().unwrap();
    assert!(phone.shop.job(job).is_ok());
    bench.take_from(&mut phone);
    assert!(bench.shop.job(job).is_ok());
}

#[test]
fn one_undo_takes_the_whole_arrival_back_and_the_file_can_come_again() {
    let (mut phone, mut bench, job) = pair();
    let before = bench.shop.job(job).unwrap();
    phone.shop.rename(job, "renamed").unwrap();
    phone.measure(job, "core.stack_mm", "61");
    let second = phone.shop.start_job("second", &OUTLETS[0]).unwrap();
    bench.take_from(&mut phone);
    assert_eq!(bench.name(job), "renamed");
    bench.shop.undo().unwrap();
    assert_eq!(bench.shop.job(job).unwrap(), before);
    assert!(bench.shop.job(second).is_err());
    assert_eq!(bench.shop.job_count().unwrap(), 1);
    bench.take_from(&mut phone);
    assert_eq!(bench.shop.job(job).unwrap(), phone.shop.job(job).unwrap());
    assert!(bench.shop.job(second).is_ok());
}

#[test]
fn looking_into_a_file_keeps_nothing() {
    let (mut phone, mut bench, job) = pair();
    phone.shop.rename(job, "renamed").unwrap();
    let path = phone.pack(&Sending::All);
    let before = bench.shop.job(job).unwrap();
    let parcel = bench.shop.look_into(&path, |_| ()).unwrap();
    assert_eq!(parcel.arrival.tallies[&Kind::Job].changed, 1);
    assert_eq!(parcel.manifest.from.name, "phone");
    assert_eq!(bench.shop.job(job).unwrap(), before);
    let taken = bench.shop.take_in_shelf(&path, |_| ()).unwrap();
    assert_eq!(taken.arrival, parcel.arrival);
}

#[test]
fn a_file_of_changes_carries_only_those_and_needs_what_came_before() {
    let (mut phone, mut bench, job) = pair();
    // The phone learns of the bench by a file from it.
    phone.take_from(&mut bench);
    let to_bench = Sending::NewFor(bench.shop.own_device().unwrap().device);
    let first = phone.pack(&to_bench);
    bench.shop.take_in_shelf(&first, |_| ()).unwrap();
    phone.shop.rename(job, "later").unwrap();
    let path = phone.folder.path().join("changes.curbshelf");
    let manifest = phone.shop.write_shelf(&path, &to_bench, |_| ()).unwrap();
    assert_eq!(manifest.records, 1);
    let mut stranger = Desk::new("stranger");
    let refused = stranger.shop.take_in_shelf(&path, |_| ()).unwrap_err().to_string();
    assert!(refused.contains("whole shelf"), "{refused}");
    bench.shop.take_in_shelf(&path, |_| ()).unwrap();
    assert_eq!(bench.name(job), "later");
}

#[test]
fn chosen_jobs_travel_with_their_core_and_donor_alone() {
    let mut phone = Desk::new("phone");
    let first = phone.shop.open_demo().unwrap();
    let second = phone.shop.start_job("second", &OUTLETS[0]).unwrap();
    let path = phone.pack(&Sending::Jobs(vec![first]));
    let mut bench = Desk::new("bench");
    bench.shop.take_in_shelf(&path, |_| ()).unwrap();
    let (there, here) = (phone.shop.job(first).unwrap(), bench.shop.job(first).unwrap());
    assert_eq!((there.core, there.donor, there.goal), (here.core, here.donor, here.goal));
    assert!(bench.shop.job(second).is_err());
}

#[test]
fn three_devices_agree_whatever_the_order() {
    let (mut a, mut b, job) = pair();
    let mut c = Desk::new("cellar");
    c.take_from(&mut a);
    a.shop.rename(job, "from a").unwrap();
    b.shop.rename(job, "from b").unwrap();
    c.measure(job, "core.tongue_mm", "37");
    b.measure(job, "core.tongue_mm", "38");
    let file = |desk: &mut Desk| desk.pack(&Sending::All);
    let (fa, fb, fc) = (file(&mut a), file(&mut b), file(&mut c));
    for path in [&fb, &fc] {
        a.shop.take_in_shelf(path, |_| ()).unwrap();
    }
    for path in [&fc, &fa] {
        b.shop.take_in_shelf(path, |_| ()).unwrap();
    }
    for path in [&fa, &fb] {
        c.shop.take_in_shelf(path, |_| ()).unwrap();
    }
    let expected = a.shop.job(job).unwrap();
    assert_eq!(b.shop.job(job).unwrap(), expected);
    assert_eq!(c.shop.job(job).unwrap(), expected);
    for desk in [&a, &b, &c] {
        assert_eq!(desk.shop.fork_count(), 2, "name and tongue");
    }
}
