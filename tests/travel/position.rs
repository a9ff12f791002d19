//! Where a photo was taken stays on the device, unless its person says otherwise; and the same photo
//! with and without its position is one photo everywhere.

use curbcore::app::sync::{Export, Sending};

use crate::carry::TestDevice;
use crate::hostile::{packed, parts};

const PLACE: &[u8] = b"52 deg 31' 12\" N";

fn has_place(bytes: &[u8]) -> bool {
    bytes.windows(PLACE.len()).any(|part| part == PLACE)
}

/// A camera's JPEG, with the place in an XMP block.
fn photo() -> Vec<u8> {
    let plain = include_bytes!("../reference/photo/real/left01.jpg");
    let body = [b"http://ns.adobe.com/xap/1.0/\0", PLACE].concat();
    let head = [0xFF, 0xE1, 0, body.len() as u8 + 2];
    [&plain[..2], &head, &body, &plain[2..]].concat()
}

fn export(desktop: &mut TestDevice, keep_position: bool) -> std::path::PathBuf {
    let path = desktop.folder.path().join("parcel.curbshelf");
    let export = Export {
        keep_position,
        ..Export::from(&Sending::All)
    };
    desktop.workspace.export_shelf(&path, export, None, |_| ()).unwrap();
    path
}

fn sent(path: &std::path::Path) -> Vec<u8> {
    let photos: Vec<_> = parts(path)
        .into_iter()
        .filter(|(name, _)| name.starts_with("photos/"))
        .collect();
    assert_eq!(photos.len(), 1);
    photos.into_iter().next().unwrap().1
}

#[test]
fn the_position_stays_here_unless_the_person_says_otherwise() {
    let mut phone = TestDevice::new("phone");
    let job = phone.workspace.open_demo().unwrap();
    let id = phone.workspace.add_core_photo(job, "measure", &photo()).unwrap();
    let without = export(&mut phone, false);
    assert!(!has_place(&sent(&without)));
    assert_eq!(
        sent(&without),
        include_bytes!("../reference/photo/real/left01.jpg"),
        "nothing else is changed"
    );
    assert_eq!(
        phone.workspace.store().core_photo_bytes(id).unwrap(),
        photo(),
        "the original stays"
    );

    // One device gets the photo without its position, another with it.
    let (mut bench, mut attic) = (TestDevice::new("bench"), TestDevice::new("attic"));
    bench.workspace.import_shelf(&without, None, |_| ()).unwrap();
    let with = export(&mut phone, true);
    assert_eq!(sent(&with), photo());
    attic.workspace.import_shelf(&with, None, |_| ()).unwrap();
    assert!(!has_place(&bench.workspace.store().core_photo_bytes(id).unwrap()));
    assert!(has_place(&attic.workspace.store().core_photo_bytes(id).unwrap()));

    // It is one photo to all three: nothing new, nothing to settle, in every direction.
    let files = [
        export(&mut bench, true),
        export(&mut attic, true),
        export(&mut attic, false),
        export(&mut phone, true),
    ];
    for path in &files {
        for desktop in [&mut phone, &mut bench, &mut attic] {
            let arrival = desktop.workspace.import_shelf(path, None, |_| ()).unwrap().arrival;
            assert!(arrival.is_nothing() && arrival.conflicting.is_empty(), "{arrival:?}");
            assert_eq!(desktop.workspace.store().conflict_count().unwrap(), 0);
        }
    }
    assert_eq!(phone.workspace.store().core_photo_bytes(id).unwrap(), photo());
}

/// The look before an import judges the photos too, not the records alone.
#[test]
fn a_look_finds_a_photo_that_is_another() {
    let mut phone = TestDevice::new("phone");
    let job = phone.workspace.open_demo().unwrap();
    phone.workspace.add_core_photo(job, "measure", &photo()).unwrap();
    let mut changed = parts(&export(&mut phone, false));
    for (name, bytes) in &mut changed {
        if name.starts_with("photos/") {
            let middle = bytes.len() / 2;
            bytes[middle] ^= 1;
        }
    }
    let mut bench = TestDevice::new("bench");
    let path = bench.folder.path().join("changed.curbshelf");
    std::fs::write(&path, packed(&changed)).unwrap();
    let look = bench
        .workspace
        .preview_shelf(&path, None, |_| ())
        .unwrap_err()
        .to_string();
    let import = bench
        .workspace
        .import_shelf(&path, None, |_| ())
        .unwrap_err()
        .to_string();
    assert!(look.contains("SHA-256"), "{look}");
    assert_eq!(look, import);
}
