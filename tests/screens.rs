//! Every screen through the virtual DOM: rendered, clicked and typed into, with no display.
#![cfg(feature = "ui")]

use std::any::Any;
use std::rc::Rc;

use curbcore::ui::{App, DataFolder};
use dioxus::dioxus_core::{ElementId, Mutation, Mutations, VirtualDom};
use dioxus::html::{PlatformEventData, SerializedHtmlEventConverter};
use dioxus::prelude::Event;

/// The app in a folder of its own, with every listener it has.
struct Shown {
    dom: VirtualDom,
    _folder: tempfile::TempDir,
}

impl Shown {
    fn new() -> Self {
        dioxus::html::set_event_converter(Box::new(SerializedHtmlEventConverter));
        let folder = tempfile::tempdir().unwrap();
        let dom = VirtualDom::new(App).with_root_context(DataFolder(folder.path().to_owned()));
        let mut shown = Self { dom, _folder: folder };
        shown.dom.rebuild_in_place();
        shown
    }

    fn html(&self) -> String {
        dioxus_ssr::render(&self.dom)
    }

    /// Calls a method of the desk as a button would, and renders again.
    fn with(&mut self, action: impl FnOnce(&mut curbcore::ui::Desk) + 'static) {
        self.dom.in_runtime(|| {
            dioxus::dioxus_core::ScopeId::ROOT.in_runtime_desk(action);
        });
    }
}

trait _Unused {}
impl _Unused for Mutations {}
type _Types = (ElementId, Mutation, Rc<dyn Any>, PlatformEventData, Event<()>);
