//! The data file's blocks in the browser's database (IndexedDB): fetched once, kept at each commit.
//!
//! One transaction is under way at a time. What SQLite commits meanwhile waits for its end and then
//! goes as one: a commit of SQLite begins and ends inside one turn of the page, so that whenever
//! the browser calls back the file in memory is whole.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use js_sys::{Array, Object, Reflect, Uint8Array};
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbDatabase, IdbFactory, IdbKeyRange, IdbOpenDbRequest, IdbTransaction};

use super::super::image::{BLOCK, Image};
use super::script::{answer, method, told, window};

const DATABASE: &str = "curbcore";
/// Blocks by number.
const BLOCKS: &str = "blocks";
/// The file's length, under [`LENGTH`].
const FILE: &str = "file";
const LENGTH: &str = "length";
/// Blocks fetched at a time: 2 MiB.
const BATCH: u32 = 256;

thread_local! {
    static KEEPER: RefCell<Option<Keeper>> = const { RefCell::new(None) };
}

struct Keeper {
    database: IdbDatabase,
    image: Rc<RefCell<Image>>,
    /// Blocks that are under way.
    under_way: Option<BTreeSet<u32>>,
    /// The length that was kept; where that is not known, more than any.
    kept_length: u64,
    on_kept: Closure<dyn FnMut()>,
    on_failed: Closure<dyn FnMut(JsValue)>,
    troubled: Rc<dyn Fn(String)>,
}

/// Fetches the file.
///
/// # Errors
/// A sentence, where the browser has no database for this page or the blocks are not a file.
pub(super) async fn fetch(troubled: Box<dyn Fn(String)>) -> Result<Rc<RefCell<Image>>, String> {
    let database = open().await?;
    let image = Rc::new(RefCell::new(read(&database).await?));
    let kept_length = image.borrow().length();
    ask_to_stay();
    KEEPER.set(Some(Keeper {
        database,
        image: Rc::clone(&image),
        under_way: None,
        kept_length,
        on_kept: Closure::new(|| done(None)),
        on_failed: Closure::new(|event: JsValue| done(Some(reason(&event)))),
        troubled: troubled.into(),
    }));
    Ok(image)
}

async fn open() -> Result<IdbDatabase, String> {
    let factory: IdbFactory = window()?
        .indexed_db()
        .ok()
        .flatten()
        .ok_or("this browser keeps no data for pages, or was told not to")?;
    let request: IdbOpenDbRequest = factory.open_with_u32(DATABASE, 1).map_err(|error| told(&error))?;
    let first = request.clone();
    let begin = Closure::<dyn FnMut()>::new(move || {
        if let Ok(database) = first.result().map(IdbDatabase::from) {
            for store in [BLOCKS, FILE] {
                if let Err(error) = database.create_object_store(store) {
                    tracing::error!("no place for {store}: {}", told(&error));
                }
            }
        }
    });
    request.set_onupgradeneeded(Some(begin.as_ref().unchecked_ref()));
    answer(&request).await.map(IdbDatabase::from)
}

async fn read(database: &IdbDatabase) -> Result<Image, String> {
    let store = |name: &str| {
        database
            .transaction_with_str(name)
            .and_then(|transaction| transaction.object_store(name))
            .map_err(|error| told(&error))
    };
    let request = store(FILE)?.get(&LENGTH.into()).map_err(|error| told(&error))?;
    let length = answer(&request).await?.as_f64().unwrap_or(0.0) as u64;
    let count = u32::try_from(length.div_ceil(BLOCK as u64)).map_err(|error| error.to_string())?;
    let mut blocks = Vec::with_capacity(count as usize);
    for from in (0..count).step_by(BATCH as usize) {
        let to = (from + BATCH).min(count) - 1;
        let range = IdbKeyRange::bound(&from.into(), &to.into()).map_err(|error| told(&error))?;
        let request = store(BLOCKS)?.get_all_with_key(&range).map_err(|error| told(&error))?;
        let batch: Array = answer(&request).await?.unchecked_into();
        blocks.extend(
            batch
                .iter()
                .map(|block| Uint8Array::new(&block).to_vec().into_boxed_slice()),
        );
    }
    Image::kept(blocks, length)
}

/// Asks the browser not to clear these data when it needs room; it may ask the person, or not care.
fn ask_to_stay() {
    if let Ok(window) = window() {
        let _ = window.navigator().storage().persist();
    }
}

/// Begins to keep what has changed, unless that is under way: then it follows.
pub(super) fn begin() {
    KEEPER.with_borrow_mut(|keeper| {
        if let Some(keeper) = keeper
            && keeper.under_way.is_none()
        {
            keeper.next();
        }
    });
}

/// A transaction has ended, well or with a reason.
fn done(failed: Option<String>) {
    let tell = KEEPER.with_borrow_mut(|keeper| {
        let keeper = keeper.as_mut()?;
        let numbers = keeper.under_way.take()?;
        match failed {
            None => {
                keeper.next();
                None
            }
            // Not again at once: the next commit takes them along.
            Some(reason) => {
                keeper.image.borrow_mut().give_back(numbers);
                keeper.kept_length = u64::MAX;
                Some((Rc::clone(&keeper.troubled), reason))
            }
        }
    });
    if let Some((troubled, reason)) = tell {
        troubled(reason);
    }
}

impl Keeper {
    fn next(&mut self) {
        let numbers = self.image.borrow_mut().take_changed();
        if numbers.is_empty() && self.image.borrow().length() == self.kept_length {
            return;
        }
        let put = self.put(&numbers);
        self.under_way = Some(numbers);
        if let Err(error) = put {
            // Told in a turn of its own: SQLite is in the middle of its commit now.
            let reason = told(&error);
            wasm_bindgen_futures::spawn_local(async move { done(Some(reason)) });
        }
    }

    /// Places everything in one transaction, and commits it at once: it then ends well even if the
    /// page is closed.
    fn put(&mut self, numbers: &BTreeSet<u32>) -> Result<(), JsValue> {
        let options = Object::new();
        Reflect::set(&options, &"durability".into(), &"strict".into())?;
        let stores = Array::of2(&BLOCKS.into(), &FILE.into());
        let transaction: IdbTransaction = method(&self.database, "transaction")
            .map_err(|error| JsValue::from_str(&error))?
            .call3(&self.database, &stores, &"readwrite".into(), &options)?
            .unchecked_into();
        transaction.set_oncomplete(Some(self.on_kept.as_ref().unchecked_ref()));
        transaction.set_onabort(Some(self.on_failed.as_ref().unchecked_ref()));
        if let Err(error) = self.place(&transaction, numbers) {
            tracing::error!("blocks cannot be placed: {}", told(&error));
            // Never half of it; the browser then calls back as for any that failed.
            transaction.abort()?;
        }
        self.kept_length = self.image.borrow().length();
        Ok(())
    }

    fn place(&self, transaction: &IdbTransaction, numbers: &BTreeSet<u32>) -> Result<(), JsValue> {
        let (blocks, file) = (transaction.object_store(BLOCKS)?, transaction.object_store(FILE)?);
        let image = self.image.borrow();
        for number in numbers {
            blocks.put_with_key(&Uint8Array::from(image.block(*number)), &(*number).into())?;
        }
        if image.length() < self.kept_length {
            blocks.delete(&IdbKeyRange::lower_bound(&(image.count() as u32).into())?.into())?;
        }
        file.put_with_key(&(image.length() as f64).into(), &LENGTH.into())?;
        method(transaction, "commit")
            .map_err(|error| JsValue::from_str(&error))?
            .call0(transaction)?;
        Ok(())
    }
}

/// Why a transaction was aborted.
fn reason(event: &JsValue) -> String {
    let transaction = Reflect::get(event, &"target".into()).unwrap_or(JsValue::UNDEFINED);
    match Reflect::get(&transaction, &"error".into()) {
        Ok(error) if error.is_object() => told(&error),
        _ => "it was broken off".to_owned(),
    }
}
