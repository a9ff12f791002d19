//! The files that SQLite sees in a browser: in memory, the data file kept at each sync.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use sqlite_wasm_rs::WasmOsCallback;
use sqlite_wasm_rs::vfs::{
    AccessMode, LockLevel, OpenOptions, OpenRequest, OpenedFile, SQLiteIoMethods, SQLiteVfs, SyncOptions, VfsError,
    VfsErrorCode, VfsFile, VfsResult, VfsStore, register_vfs,
};

use super::super::image::Image;
use super::keep;

/// All files by name.
pub(super) struct Files {
    /// The data file's name; the others are SQLite's own for a while, and kept nowhere.
    data: String,
    named: RefCell<BTreeMap<String, Rc<RefCell<Image>>>>,
}

/// An open file.
pub(super) struct Handle {
    image: Rc<RefCell<Image>>,
    is_data: bool,
}

impl VfsFile for Handle {
    fn read(&mut self, into: &mut [u8], at: u64) -> VfsResult<usize> {
        Ok(self.image.borrow().read(into, at))
    }

    fn write(&mut self, bytes: &[u8], at: u64) -> VfsResult<()> {
        if at + bytes.len() as u64 > u64::from(u32::MAX) {
            return Err(VfsError::new(
                VfsErrorCode::Full,
                "a browser has no room for this file".into(),
            ));
        }
        self.image.borrow_mut().write(bytes, at);
        Ok(())
    }

    fn truncate(&mut self, size: u64) -> VfsResult<()> {
        self.image.borrow_mut().cut(size);
        Ok(())
    }

    fn sync(&mut self, _: SyncOptions) -> VfsResult<()> {
        if self.is_data {
            keep::begin();
        }
        Ok(())
    }

    fn size(&self) -> VfsResult<u64> {
        Ok(self.image.borrow().length())
    }

    // One page has the data, by the lock that `super::lock` took, and one connection in it.
    fn lock(&mut self, _: LockLevel) -> VfsResult<()> {
        Ok(())
    }

    fn unlock(&mut self, _: LockLevel) -> VfsResult<()> {
        Ok(())
    }

    fn check_reserved_lock(&self) -> VfsResult<bool> {
        Ok(false)
    }
}

/// SQLite's way to the files.
struct Disk;

impl VfsStore for Disk {
    type File = Handle;
    type AppData = Files;

    fn open_file(files: &Files, request: OpenRequest<'_>) -> VfsResult<OpenedFile<Handle>> {
        let access = request.options.access();
        let Some(name) = request.filename.map(|name| name.path().to_owned()) else {
            let image = Rc::default();
            return Ok(OpenedFile {
                file: Handle { image, is_data: false },
                access,
            });
        };
        let mut named = files.named.borrow_mut();
        let refuse = |why: &'static str| Err(VfsError::new(VfsErrorCode::CantOpen, why.into()));
        let image = match named.get(&name) {
            Some(_) if request.options.exclusive() => return refuse("there is such a file already"),
            Some(image) => Rc::clone(image),
            None if request.options.create() => Rc::clone(named.entry(name.clone()).or_default()),
            None => return refuse("there is no such file"),
        };
        Ok(OpenedFile {
            file: Handle {
                image,
                is_data: name == files.data,
            },
            access,
        })
    }

    fn close_file(files: &Files, name: Option<&str>, _: Handle, options: OpenOptions) -> VfsResult<()> {
        if let Some(name) = name
            && options.delete_on_close()
        {
            files.named.borrow_mut().remove(name);
        }
        Ok(())
    }

    fn access(files: &Files, name: &str, _: AccessMode) -> VfsResult<bool> {
        // An empty data file is one that was never begun.
        Ok(files
            .named
            .borrow()
            .get(name)
            .is_some_and(|image| image.borrow().length() > 0))
    }

    fn full_pathname(_: &Files, name: &str) -> VfsResult<String> {
        Ok(name.to_owned())
    }

    fn delete_file(files: &Files, name: &str, _: bool) -> VfsResult<()> {
        files.named.borrow_mut().remove(name);
        Ok(())
    }
}

struct Methods;

impl SQLiteIoMethods for Methods {
    type Store = Disk;
}

struct Browser;

impl SQLiteVfs<Methods> for Browser {
    type Os = WasmOsCallback;

    fn os(_: &Files) -> &WasmOsCallback {
        &WasmOsCallback
    }
}

/// Makes these files SQLite's own. `data` is the data file's name.
///
/// # Errors
/// What SQLite says.
pub(super) fn install(data: &str, image: Rc<RefCell<Image>>) -> Result<(), String> {
    let files = Files {
        data: data.to_owned(),
        named: RefCell::new(BTreeMap::from([(data.to_owned(), image)])),
    };
    // SAFETY: `Methods` and `Browser` change none of the callbacks, so that tables, file layout
    // and data types agree; a page has one thread, on which all SQLite calls are made, this name
    // is registered once, and the registration is never taken back.
    #[allow(unsafe_code)]
    let registered = unsafe { register_vfs::<Methods, Browser>("curbcore", files, true) };
    registered
        .map(|registration| {
            registration.into_raw();
        })
        .map_err(|error| error.to_string())
}
