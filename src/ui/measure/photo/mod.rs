//! Lengths from a photo: an object of known size on the core's face, marks on the core's edges,
//! millimetres with their ±.

mod angles;
mod camera;
mod closeup;
mod lengths;
mod live;
mod reference;
mod stage;
mod straight;
mod together;

pub use live::LiveState;

use crate::words::Message;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use dioxus::prelude::*;

use super::super::background::run_in_background;
use super::super::controls::{FilePick, Picked, Unreadable, or_why, unread_text};
use super::super::phone::PHOTOS;
use super::super::state::AppState;
use super::super::words::{say, say_with, tell};
use crate::app::photo::{
    FoundObject, MEASURED, OpenedPhoto, PhotoReadings, default_outline, object_is_doubtful, read_marks,
    with_centre_moved, with_handle_moved,
};
use crate::job::{DimensionMark, PhotoFound, PhotoId, PhotoMarks, PhotoReference, Place};
use crate::photo::Cancelled;
use crate::store::MAX_PHOTO_BYTES;
use crate::text::Arg;

/// A point that the person moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Handle {
    /// A corner, an outline's end, or a mark of the object of known size.
    Object(usize),
    /// The object's outline as a whole.
    Whole,
    /// A corner of the core's face.
    Face(usize),
    /// An end of a dimension.
    Mark(usize, usize),
    /// A point along a straight edge.
    Straight(usize, usize),
    /// A point along an edge of an angle.
    Angle(usize, usize),
}

/// The photo on the screen.
#[derive(Clone)]
pub struct OpenPhoto {
    id: PhotoId,
    photo: Arc<OpenedPhoto>,
    address: Arc<str>,
}

/// The state of the photo screen, shared by its parts.
#[derive(Clone, Copy)]
pub struct PhotoEditor {
    /// The photo.
    pub open: Signal<Option<OpenPhoto>>,
    /// The marks on it.
    pub marks: Signal<Option<PhotoMarks>>,
    /// The selected handle.
    pub handle: Signal<Option<Handle>>,
    /// A message for the person.
    pub message: Signal<Option<String>>,
    /// The text id of the operation in progress.
    pub busy: Signal<Option<&'static str>>,
    /// Tells the work in progress that it was cancelled.
    pub cancelled: Signal<Arc<AtomicBool>>,
    /// The object chosen for the next photo.
    pub reference: Signal<PhotoReference>,
}

/// The readings of the current marks, computed once for all parts of the screen.
pub type Readings = Memo<Option<Result<PhotoReadings, Message>>>;

impl PhotoEditor {
    /// The position of a handle.
    pub fn place(self, handle: Handle) -> Option<Place> {
        let marks = self.marks.read();
        let marks = marks.as_ref()?;
        match handle {
            Handle::Object(index) => crate::app::photo::handles(marks.found.as_ref()?).get(index).copied(),
            Handle::Whole => match marks.found.as_ref()? {
                PhotoFound::Ellipse { centre, .. } => Some(*centre),
                _ => None,
            },
            Handle::Face(index) => marks.face?.get(index).copied(),
            Handle::Mark(mark, end) => marks.marks.get(mark)?.points.get(end).copied(),
            Handle::Straight(edge, index) => marks.straight.get(edge)?.get(index).copied(),
            Handle::Angle(angle, index) => marks.angles.get(angle)?.get(index).copied(),
        }
    }

    /// Moves the selected handle, with `snapping` to the strongest edge nearby if it marks an edge of
    /// the core.
    pub fn move_handle(mut self, place: Place, snapping: bool) {
        let Some(handle) = (self.handle)() else { return };
        let place = match (&*self.open.read(), handle) {
            (Some(open), Handle::Mark(..) | Handle::Straight(..) | Handle::Angle(..)) if snapping => {
                open.photo.snapped(place)
            }
            _ => place,
        };
        if let Some(marks) = self.marks.write().as_mut() {
            let inside = [
                place[0].clamp(0.0, marks.frame[0] - 1.0),
                place[1].clamp(0.0, marks.frame[1] - 1.0),
            ];
            match handle {
                Handle::Object(index) => {
                    let outline = marks.found.as_ref();
                    marks.found = outline.map(|outline| with_handle_moved(outline, index, inside));
                }
                Handle::Whole => {
                    let outline = marks.found.as_ref();
                    marks.found = outline.map(|outline| with_centre_moved(outline, inside));
                }
                _ => {
                    if let Some(point) = point_of(marks, handle) {
                        *point = inside;
                    }
                }
            }
        }
        if matches!(handle, Handle::Object(_) | Handle::Whole) {
            self.change(|marks| marks.object_doubts.clear());
        }
    }

    /// Runs work on a photo in the background; none where the person cancelled it meanwhile. The work asks
    /// between its stages whether it was cancelled, and ends then.
    async fn beside<T: Send + 'static>(
        mut self,
        key: &'static str,
        work: impl FnOnce(Cancelled<'_>) -> T + Send + 'static,
    ) -> Option<T> {
        self.cancel();
        let cancelled = Arc::new(AtomicBool::new(false));
        self.cancelled.set(cancelled.clone());
        let asked = cancelled.clone();
        self.busy.set(Some(key));
        let done = run_in_background(move || work(&|| asked.load(Ordering::Relaxed))).await;
        if cancelled.load(Ordering::Relaxed) {
            return None;
        }
        self.busy.set(None);
        done
    }

    /// Cancels the work in progress.
    fn cancel(mut self) {
        self.cancelled.peek().store(true, Ordering::Relaxed);
        self.busy.set(None);
    }

    /// Changes the marks.
    pub fn change(mut self, with: impl FnOnce(&mut PhotoMarks)) {
        if let Some(marks) = self.marks.write().as_mut() {
            with(marks);
        }
    }

    /// Saves the marks.
    pub fn save(self, app: &mut AppState) {
        if let (Some(open), Some(marks)) = (&*self.open.read(), &*self.marks.read()) {
            app.set_marks(open.id, marks);
        }
    }

    fn show_found(mut self, result: Result<FoundObject, Message>) {
        match result {
            Ok(object) => {
                self.message.set(None);
                self.change(|marks| {
                    marks.found = Some(object.found);
                    marks.object_doubts = object.doubts.into_iter().map(str::to_owned).collect();
                });
                self.handle.set(None);
            }
            Err(message) => {
                self.message.set(Some(tell(&message)));
                self.change(|marks| {
                    marks.found = default_outline(marks);
                    marks.object_doubts.clear();
                });
                self.handle.set(Some(Handle::Object(0)));
            }
        }
    }
}

/// The stored point of a handle; `None` for handles of the object, whose outline depends on several.
fn point_of(marks: &mut PhotoMarks, handle: Handle) -> Option<&mut Place> {
    match handle {
        Handle::Object(_) | Handle::Whole => None,
        Handle::Face(index) => marks.face.as_mut()?.get_mut(index),
        Handle::Mark(mark, end) => marks.marks.get_mut(mark)?.points.get_mut(end),
        Handle::Straight(edge, index) => marks.straight.get_mut(edge)?.get_mut(index),
        Handle::Angle(angle, index) => marks.angles.get_mut(angle)?.get_mut(index),
    }
}

/// Opens a photo, and searches for the object unless the photo has marks.
async fn open(mut editor: PhotoEditor, id: PhotoId, bytes: Vec<u8>, marks: Option<PhotoMarks>) {
    let opened = editor
        .beside("ui-photo-opening", move |cancelled| {
            OpenedPhoto::new_unless(&bytes, cancelled)
        })
        .await;
    let photo = match opened {
        Some(Ok(photo)) => Arc::new(photo),
        Some(Err(message)) => return editor.message.set(Some(tell(&message))),
        None => return,
    };
    let address = format!("data:image/png;base64,{}", BASE64_STANDARD.encode(&photo.png)).into();
    let fresh = marks.is_none();
    let marks = marks.unwrap_or_else(|| photo.empty_marks((editor.reference)()));
    editor.reference.set(marks.reference.clone());
    editor.marks.set(Some(marks));
    editor.handle.set(None);
    editor.message.set(None);
    editor.open.set(Some(OpenPhoto { id, photo, address }));
    if fresh {
        search_object(editor).await;
        // Behind a doubtful scale any core would be doubtful, too.
        let sure = |marks: &PhotoMarks| marks.found.is_some() && !object_is_doubtful(marks);
        let sure = editor.marks.peek().as_ref().is_some_and(sure);
        // No face may be a side.
        if sure && !search_core(editor).await && !search_stack(editor).await && editor.busy.peek().is_none() {
            editor.message.set(Some(say("ui-photo-no-core")));
        }
    }
}

/// Keeps a photo with the job's core, and opens it.
async fn keep_and_open(mut app: Signal<AppState>, editor: PhotoEditor, bytes: Vec<u8>) {
    let id = app.write().add_core_photo(MEASURED, &bytes);
    if let Some(id) = id {
        open(editor, id, bytes, None).await;
    }
}

/// Searches for the object in the photo.
pub async fn search_object(editor: PhotoEditor) {
    let (Some(open), Some(marks)) = ((editor.open)(), (editor.marks)()) else {
        return;
    };
    let reference = marks.reference;
    let object = editor
        .beside("ui-photo-looking", move |cancelled| {
            open.photo.find_unless(&reference, cancelled)
        })
        .await;
    if let Some(object) = object {
        editor.show_found(object);
    }
}

/// Searches for the core's face and proposes its corners and edges in place of those marked; whether it was
/// found.
pub async fn search_core(mut editor: PhotoEditor) -> bool {
    let (Some(open), Some(marks)) = ((editor.open)(), (editor.marks)()) else {
        return false;
    };
    let found = editor
        .beside("ui-photo-finding-core", move |cancelled| {
            open.photo.find_core(&marks, cancelled)
        })
        .await;
    match found {
        None => false,
        Some(None) => {
            editor.message.set(Some(say("ui-photo-no-core")));
            false
        }
        Some(Some(core)) => {
            editor.message.set(None);
            editor.change(|marks| {
                marks.face = Some(core.face);
                marks.marks = core.marks;
                marks.doubts = core.doubts.into_iter().map(str::to_owned).collect();
            });
            editor.handle.set(None);
            true
        }
    }
}

/// Searches for the stack in a photo of the core's side and proposes its edges in place of those marked; whether
/// it was found.
pub async fn search_stack(mut editor: PhotoEditor) -> bool {
    let (Some(open), Some(marks)) = ((editor.open)(), (editor.marks)()) else {
        return false;
    };
    let found = editor
        .beside("ui-photo-finding-stack", move |cancelled| {
            open.photo.find_stack(&marks, cancelled)
        })
        .await;
    match found {
        None => false,
        Some(None) => {
            editor.message.set(Some(say("ui-photo-no-stack")));
            false
        }
        Some(Some(stack)) => {
            editor.message.set(None);
            editor.change(|marks| {
                marks.marks.retain(|mark| mark.dimension != stack.mark.dimension);
                marks.marks.push(stack.mark);
                marks.doubts.extend(stack.doubts.into_iter().map(str::to_owned));
                marks.doubts.sort();
                marks.doubts.dedup();
            });
            editor.handle.set(None);
            true
        }
    }
}

/// The state of the photo screen, and the readings of its marks, for all its parts.
fn use_photo_editor() -> PhotoEditor {
    let marks = use_signal(|| None::<PhotoMarks>);
    let editor = PhotoEditor {
        open: use_signal(|| None),
        marks,
        handle: use_signal(|| None),
        message: use_signal(|| None),
        busy: use_signal(|| None),
        cancelled: use_signal(Arc::default),
        reference: use_signal(|| PhotoReference::Card),
    };
    use_context_provider(|| editor);
    let answer: Readings = use_memo(move || marks.read().as_ref().map(read_marks));
    use_context_provider(|| answer);
    editor
}

/// The open photo with the marks on it, and the lengths.
#[component]
fn Shown() -> Element {
    rsx! {
        ObjectDoubts {}
        stage::Stage {}
        closeup::CloseUp {}
        lengths::Lengths {}
        angles::Angles {}
        straight::Straight {}
    }
}

/// The part of the Measure screen.
#[component]
pub fn FromPhoto() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let editor = use_photo_editor();
    let unfolded = app.read().panel_open("photo");
    let (kept, unread) = or_why(app.read().core_photos(MEASURED));
    let shown = editor.open.read().as_ref().map(|open| open.id);
    rsx! {
        section { class: "from-photo panels",
            div { class: "panel",
                h2 { class: "fold-head",
                    button {
                        class: "fold wide", aria_expanded: "{unfolded}",
                        onclick: move |_| app.write().toggle_panel("photo"),
                        span { aria_hidden: "true", if unfolded { "▾ " } else { "▸ " } }
                        {say("ui-photo-title")}
                    }
                }
                if unfolded {
                    p { {say("ui-photo-help")} }
                    reference::ReferenceForm {}
                    live::LiveCamera {
                        ontaken: move |bytes| {
                            spawn(keep_and_open(app, editor, bytes));
                        },
                    }
                    FilePick {
                        id: "core-photo", label: say("ui-photo-take"), accept: PHOTOS, camera: true,
                        most: MAX_PHOTO_BYTES as u64,
                        onpick: move |file: Picked| {
                            let mut editor = editor;
                            spawn(async move {
                                // The size is checked before reading, so that memory stays bounded.
                                if file.size() > MAX_PHOTO_BYTES as u64 {
                                    return editor.message.set(Some(say("ui-photo-refused")));
                                }
                                let Some(bytes) = file.bytes().await else {
                                    return editor.message.set(Some(say("ui-photo-refused")));
                                };
                                keep_and_open(app, editor, bytes).await;
                            });
                        },
                    }
                    Unreadable { why: unread }
                    for (number, photo) in kept.into_iter().enumerate() {
                        button {
                            key: "{photo.id}", class: "second wide", disabled: shown == Some(photo.id),
                            onclick: {
                                let photo = photo.clone();
                                move |_| {
                                    let (id, marks) = (photo.id, photo.marks.clone());
                                    let bytes = app.read().query(|data| data.store().core_photo_bytes(id));
                                    let mut editor = editor;
                                    async move {
                                        match bytes {
                                            Ok(bytes) => open(editor, id, bytes, marks).await,
                                            Err(why) => editor.message.set(unread_text(&why)),
                                        }
                                    }
                                }
                            },
                            {say_with("ui-photo-open", &[("number", Arg::Number((number + 1) as f64))])}
                        }
                    }
                    together::Together {}
                    if let Some(key) = (editor.busy)() {
                        p { class: "busy", role: "status", {say(key)} }
                        if cfg!(not(target_family = "wasm")) {
                            button { class: "second", onclick: move |_| editor.cancel(), {say("ui-cancel")} }
                        }
                    }
                    if let Some(text) = (editor.message)() { p { class: "caution", role: "alert", "{text}" } }
                    if shown.is_some() { Shown {} }
                }
            }
        }
    }
}

/// Why the object's outline is to be compared with the photo, until a person has moved or confirmed it; and the
/// photo's defects.
#[component]
fn ObjectDoubts() -> Element {
    let editor = use_context::<PhotoEditor>();
    let Some(marks) = (editor.marks)() else { return rsx! {} };
    let doubtful = object_is_doubtful(&marks);
    rsx! {
        if doubtful { p { class: "caution", role: "alert", {say("ui-photo-doubtful")} } }
        for word in marks.object_doubts { p { key: "{word}", class: "hint", {say(doubt(&word))} } }
        if doubtful {
            button {
                class: "second", onclick: move |_| editor.change(|marks| marks.object_doubts.clear()),
                {say("ui-photo-object-compared")}
            }
        }
    }
}

/// The button that removes a mark.
#[component]
fn RemoveButton(change: Callback<PhotoEditor>) -> Element {
    let mut editor = use_context::<PhotoEditor>();
    rsx! {
        button {
            class: "quiet", aria_label: say("ui-remove"),
            onclick: move |_| {
                editor.handle.set(None);
                change.call(editor);
            },
            "✕"
        }
    }
}

/// The text id of a reason for doubt or a photo's defect.
fn doubt(word: &str) -> &'static str {
    match word {
        "second-as-likely" => "ui-doubt-second",
        "unlikely" => "ui-doubt-unlikely",
        "small" => "ui-doubt-small",
        "at-border" => "ui-doubt-border",
        "weak-outline" => "ui-doubt-outline",
        "odd-shape" => "ui-doubt-shape",
        "square-corners" => "ui-doubt-corners",
        "core-second" => "ui-doubt-core-second",
        "core-edges" => "ui-doubt-core-edges",
        "core-uneven" => "ui-doubt-core-uneven",
        "core-level" => "ui-doubt-core-level",
        "core-proportions" => "ui-doubt-core-proportions",
        "core-side" => "ui-doubt-core-side",
        "core-sheets" => "ui-doubt-core-sheets",
        "glare" => "ui-doubt-glare",
        "dark" => "ui-doubt-dark",
        _ => "ui-doubt-blurred",
    }
}

/// A new dimension between two points near the middle of the photo.
fn new_mark(marks: &PhotoMarks, dimension: &str) -> DimensionMark {
    let [w, h] = marks.frame;
    let upright = dimension == "window_height" || dimension == "yoke";
    let points = if upright {
        vec![[w * 0.5, h * 0.4], [w * 0.5, h * 0.6]]
    } else {
        vec![[w * 0.4, h * 0.5], [w * 0.6, h * 0.5]]
    };
    DimensionMark {
        dimension: dimension.to_owned(),
        points,
    }
}

/// Converts a dimension between two points to one between two edges: each point becomes two.
fn along_edges(marks: &PhotoMarks, points: &[Place]) -> Option<Vec<Place>> {
    let &[from, to] = points else { return None };
    let [w, h] = marks.frame;
    let across = [(from[1] - to[1]) / 2.0, (to[0] - from[0]) / 2.0];
    let beside = |at: Place, side: f64| {
        [
            (at[0] + side * across[0]).clamp(0.0, w - 1.0),
            (at[1] + side * across[1]).clamp(0.0, h - 1.0),
        ]
    };
    Some(vec![
        beside(from, -0.5),
        beside(from, 0.5),
        beside(to, -0.5),
        beside(to, 0.5),
    ])
}

#[cfg(test)]
mod tests {
    use std::sync::Mutex;
    use std::sync::atomic::AtomicUsize;
    use std::time::Duration;

    use super::*;

    /// How often work found that it was cancelled.
    static STOPPED: AtomicUsize = AtomicUsize::new(0);

    type Outcome = Arc<Mutex<Vec<Option<u8>>>>;

    #[allow(non_snake_case)]
    fn Screen() -> Element {
        let work = use_photo_editor();
        let outcome = use_context::<Outcome>();
        use_hook(|| {
            let slow = |answer: u8| {
                move |cancelled: Cancelled<'_>| {
                    // As long as the photo's work would take.
                    for _ in 0..50 {
                        if cancelled() {
                            STOPPED.fetch_add(1, Ordering::Relaxed);
                            break;
                        }
                        std::thread::sleep(Duration::from_millis(1));
                    }
                    answer
                }
            };
            spawn(async move {
                let cancelled = spawn({
                    let outcome = outcome.clone();
                    async move {
                        let done = work.beside("ui-photo-opening", slow(1)).await;
                        outcome.lock().unwrap().push(done);
                    }
                });
                // The work has begun when the other task has run once.
                while work.busy.peek().is_none() {
                    run_in_background(|| ()).await;
                }
                work.cancel();
                assert!(work.busy.peek().is_none(), "the line stays");
                let _ = cancelled;
                let done = work.beside("ui-photo-looking", slow(2)).await;
                outcome.lock().unwrap().push(done);
            });
        });
        rsx! { p {} }
    }

    /// Cancelled work ends without a result, and what begins after it has its own.
    #[test]
    fn what_was_cancelled_counts_for_nothing() {
        let outcome = Outcome::default();
        let mut dom = VirtualDom::new(Screen).with_root_context(outcome.clone());
        dom.rebuild_in_place();
        let mut context = std::task::Context::from_waker(std::task::Waker::noop());
        for _ in 0..400 {
            let ready = {
                let waits = std::pin::pin!(dom.wait_for_work());
                std::future::Future::poll(waits, &mut context).is_ready()
            };
            if ready {
                dom.render_immediate_to_vec();
            }
            if outcome.lock().unwrap().len() == 2 {
                break;
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        // Which of the two is told first is the machine's choice.
        let mut found = outcome.lock().unwrap().clone();
        found.sort_unstable();
        assert_eq!(found, [None, Some(2)]);
        assert_eq!(
            STOPPED.load(Ordering::Relaxed),
            1,
            "the cancelled work went on in the background"
        );
    }
}
