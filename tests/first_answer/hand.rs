//! A hand on the app without a window: the page that the virtual DOM describes, taps and entries on it, counted.

use std::any::Any;
use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use std::rc::Rc;

use curbcore::ui::{App, DataFolder};
use dioxus::core::{
    AttributeValue, ElementId, Event, Template, TemplateAttribute, TemplateNode, VirtualDom, WriteMutations,
};
use dioxus::html::geometry::{ClientPoint, ElementPoint, PagePoint, ScreenPoint};
use dioxus::html::input_data::{MouseButton, MouseButtonSet};
use dioxus::html::point_interaction::{
    InteractionElementOffset, InteractionLocation, ModifiersInteraction, PointerInteraction,
};
use dioxus::html::*;

#[derive(Debug, Default)]
struct Node {
    /// Empty for a text and a placeholder.
    tag: &'static str,
    text: String,
    attributes: BTreeMap<String, String>,
    children: Vec<usize>,
    parent: Option<usize>,
    /// By the kind of event.
    listeners: BTreeMap<&'static str, ElementId>,
}

/// The page, as a browser would have it.
#[derive(Debug)]
struct Page {
    nodes: Vec<Node>,
    ids: HashMap<usize, usize>,
    stack: Vec<usize>,
}

impl Page {
    fn new() -> Self {
        let root = Node {
            tag: "main-root",
            ..Node::default()
        };
        Self {
            nodes: vec![root],
            ids: HashMap::from([(0, 0)]),
            stack: Vec::new(),
        }
    }

    fn add(&mut self, node: Node) -> usize {
        self.nodes.push(node);
        self.nodes.len() - 1
    }

    fn built(&mut self, of: &TemplateNode) -> usize {
        match of {
            TemplateNode::Element {
                tag, attrs, children, ..
            } => {
                let fixed = attrs.iter().filter_map(|attribute| match attribute {
                    TemplateAttribute::Static { name, value, .. } => Some(((*name).to_owned(), (*value).to_owned())),
                    TemplateAttribute::Dynamic { .. } => None,
                });
                let attributes = fixed.collect();
                let at = self.add(Node {
                    tag,
                    attributes,
                    ..Node::default()
                });
                for child in *children {
                    let child = self.built(child);
                    self.nodes[child].parent = Some(at);
                    self.nodes[at].children.push(child);
                }
                at
            }
            TemplateNode::Text { text } => self.add(Node {
                text: (*text).to_owned(),
                ..Node::default()
            }),
            TemplateNode::Dynamic { .. } => self.add(Node::default()),
        }
    }

    fn popped(&mut self, count: usize) -> Vec<usize> {
        self.stack.split_off(self.stack.len() - count)
    }

    fn at_path(&self, path: &[u8]) -> usize {
        let top = *self.stack.last().expect("a template's root");
        path.iter()
            .fold(top, |node, at| self.nodes[node].children[usize::from(*at)])
    }

    /// Puts nodes in the place of one (`keep` 0), before it (1) or after it (2).
    fn put(&mut self, at: usize, new: &[usize], keep: u8) {
        let Some(parent) = self.nodes[at].parent else { return };
        let place = self.nodes[parent]
            .children
            .iter()
            .position(|child| *child == at)
            .expect("a child");
        for node in new {
            self.nodes[*node].parent = Some(parent);
        }
        let (from, to) = match keep {
            0 => (place, place + 1),
            1 => (place, place),
            _ => (place + 1, place + 1),
        };
        self.nodes[parent].children.splice(from..to, new.iter().copied());
        if keep == 0 {
            self.nodes[at].parent = None;
        }
    }

    fn of(&self, id: ElementId) -> usize {
        self.ids[&id.0]
    }

    fn words(&self, at: usize) -> String {
        let node = &self.nodes[at];
        let below = node.children.iter().map(|child| self.words(*child));
        std::iter::once(node.text.clone()).chain(below).collect()
    }

    /// All nodes that are on the page, in order.
    fn all(&self, at: usize, into: &mut Vec<usize>) {
        into.push(at);
        for child in &self.nodes[at].children {
            self.all(*child, into);
        }
    }

    /// Whether it lies in a fold that is closed.
    fn is_folded(&self, at: usize) -> bool {
        let above = std::iter::successors(Some(at), |node| self.nodes[*node].parent);
        let mut below = above.clone();
        below.next();
        above.zip(below).any(|(child, parent)| {
            let fold = &self.nodes[parent];
            fold.tag == "details" && !fold.attributes.contains_key("open") && self.nodes[child].tag != "summary"
        })
    }
}

impl WriteMutations for Page {
    fn append_children(&mut self, id: ElementId, m: usize) {
        let (at, new) = (self.of(id), self.popped(m));
        for node in new {
            self.nodes[node].parent = Some(at);
            self.nodes[at].children.push(node);
        }
    }
    fn assign_node_id(&mut self, path: &'static [u8], id: ElementId) {
        let at = self.at_path(path);
        self.ids.insert(id.0, at);
    }
    fn create_placeholder(&mut self, id: ElementId) {
        self.create_text_node("", id);
    }
    fn create_text_node(&mut self, value: &str, id: ElementId) {
        let at = self.add(Node {
            text: value.to_owned(),
            ..Node::default()
        });
        self.ids.insert(id.0, at);
        self.stack.push(at);
    }
    fn load_template(&mut self, template: Template, index: usize, id: ElementId) {
        let at = self.built(&template.roots[index]);
        self.ids.insert(id.0, at);
        self.stack.push(at);
    }
    fn replace_node_with(&mut self, id: ElementId, m: usize) {
        let (at, new) = (self.of(id), self.popped(m));
        self.put(at, &new, 0);
    }
    fn replace_placeholder_with_nodes(&mut self, path: &'static [u8], m: usize) {
        let new = self.popped(m);
        let at = self.at_path(path);
        self.put(at, &new, 0);
    }
    fn insert_nodes_after(&mut self, id: ElementId, m: usize) {
        let (at, new) = (self.of(id), self.popped(m));
        self.put(at, &new, 2);
    }
    fn insert_nodes_before(&mut self, id: ElementId, m: usize) {
        let (at, new) = (self.of(id), self.popped(m));
        self.put(at, &new, 1);
    }
    fn set_attribute(&mut self, name: &'static str, _: Option<&'static str>, value: &AttributeValue, id: ElementId) {
        let at = self.of(id);
        let text = match value {
            AttributeValue::Text(text) => text.clone(),
            AttributeValue::Float(value) => value.to_string(),
            AttributeValue::Int(value) => value.to_string(),
            AttributeValue::Bool(true) => "true".to_owned(),
            _ => {
                self.nodes[at].attributes.remove(name);
                return;
            }
        };
        self.nodes[at].attributes.insert(name.to_owned(), text);
    }
    fn set_node_text(&mut self, value: &str, id: ElementId) {
        let at = self.of(id);
        value.clone_into(&mut self.nodes[at].text);
    }
    fn create_event_listener(&mut self, name: &'static str, id: ElementId) {
        let at = self.of(id);
        self.nodes[at].listeners.insert(name, id);
    }
    fn remove_event_listener(&mut self, name: &'static str, id: ElementId) {
        let at = self.of(id);
        self.nodes[at].listeners.remove(name);
    }
    fn remove_node(&mut self, id: ElementId) {
        let at = self.of(id);
        self.put(at, &[], 0);
    }
    fn push_root(&mut self, id: ElementId) {
        let at = self.of(id);
        self.stack.push(at);
    }
}

/// A tap with a finger.
struct Tap;

impl InteractionLocation for Tap {
    fn client_coordinates(&self) -> ClientPoint {
        ClientPoint::zero()
    }
    fn screen_coordinates(&self) -> ScreenPoint {
        ScreenPoint::zero()
    }
    fn page_coordinates(&self) -> PagePoint {
        PagePoint::zero()
    }
}
impl InteractionElementOffset for Tap {
    fn element_coordinates(&self) -> ElementPoint {
        ElementPoint::zero()
    }
}
impl ModifiersInteraction for Tap {
    fn modifiers(&self) -> Modifiers {
        Modifiers::empty()
    }
}
impl PointerInteraction for Tap {
    fn trigger_button(&self) -> Option<MouseButton> {
        Some(MouseButton::Primary)
    }
    fn held_buttons(&self) -> MouseButtonSet {
        MouseButtonSet::empty()
    }
}
impl HasMouseData for Tap {
    fn as_any(&self) -> &dyn Any {
        self
    }
}

/// What stands in a field when it is left.
struct Typed(String);

impl HasFileData for Typed {
    fn files(&self) -> Vec<FileData> {
        Vec::new()
    }
}
impl HasFormData for Typed {
    fn value(&self) -> String {
        self.0.clone()
    }
    fn valid(&self) -> bool {
        true
    }
    fn values(&self) -> Vec<(String, FormValue)> {
        Vec::new()
    }
    fn as_any(&self) -> &dyn Any {
        self
    }
}

/// Taps and entries become events; there are no others here.
struct Events;

macro_rules! no_events {
    ($($name:ident $data:ty,)*) => { $(fn $name(&self, _: &PlatformEventData) -> $data { unreachable!("no such event here") })* };
}

impl HtmlEventConverter for Events {
    fn convert_mouse_data(&self, _: &PlatformEventData) -> MouseData {
        MouseData::new(Tap)
    }
    fn convert_form_data(&self, event: &PlatformEventData) -> FormData {
        FormData::new(Typed(event.downcast::<String>().cloned().unwrap_or_default()))
    }
    no_events! {
        convert_animation_data AnimationData, convert_cancel_data CancelData, convert_clipboard_data ClipboardData,
        convert_composition_data CompositionData, convert_drag_data DragData, convert_focus_data FocusData,
        convert_image_data ImageData, convert_keyboard_data KeyboardData, convert_media_data MediaData,
        convert_mounted_data MountedData, convert_pointer_data PointerData, convert_resize_data ResizeData,
        convert_scroll_data ScrollData, convert_selection_data SelectionData, convert_toggle_data ToggleData,
        convert_touch_data TouchData, convert_transition_data TransitionData, convert_visible_data VisibleData,
        convert_wheel_data WheelData,
    }
}

/// The app on a data folder, with what a hand did to it.
pub struct Hand {
    dom: VirtualDom,
    page: Page,
    /// Buttons tapped.
    pub taps: u32,
    /// Fields filled.
    pub entries: u32,
}

impl Hand {
    /// Opens the app.
    pub fn open(folder: &Path) -> Self {
        set_event_converter(Box::new(Events));
        let dom = VirtualDom::new(App).with_root_context(DataFolder(folder.to_owned()));
        let mut hand = Self {
            dom,
            page: Page::new(),
            taps: 0,
            entries: 0,
        };
        hand.dom.rebuild(&mut hand.page);
        hand
    }

    fn find(&self, what: &str, is: impl Fn(&Node, &str) -> bool) -> usize {
        let mut all = Vec::new();
        self.page.all(0, &mut all);
        let found = all
            .into_iter()
            .find(|at| is(&self.page.nodes[*at], &self.page.words(*at)));
        let at = found.unwrap_or_else(|| panic!("{what} is not on the page: {}", self.words()));
        assert!(!self.page.is_folded(at), "{what} lies in a closed fold");
        assert!(
            !self.page.nodes[at].attributes.contains_key("disabled"),
            "{what} is disabled"
        );
        at
    }

    fn send(&mut self, at: usize, name: &'static str, value: &str) {
        let id = *self.page.nodes[at].listeners.get(name).expect("it listens");
        let data: Rc<dyn Any> = Rc::new(PlatformEventData::new(Box::new(value.to_owned())));
        self.dom.runtime().handle_event(name, Event::new(data, true), id);
        self.dom.process_events();
        self.dom.render_immediate(&mut self.page);
        assert!(self.page.stack.is_empty(), "nodes are left over");
    }

    /// Taps the button with this name.
    pub fn tap(&mut self, name: &str) {
        let named = |node: &Node, words: &str| {
            node.tag == "button"
                && (node.attributes.get("aria-label").is_some_and(|label| label == name) || words == name)
        };
        let at = self.find(name, named);
        self.taps += 1;
        self.send(at, "click", "");
    }

    /// Taps the button with this id.
    pub fn tap_id(&mut self, id: &str) {
        let at = self.find(id, |node, _| node.attributes.get("id").is_some_and(|of| of == id));
        self.taps += 1;
        self.send(at, "click", "");
    }

    /// Answers a question, by its words, with one of its choices.
    pub fn choose(&mut self, question: &str, word: &str) {
        let group = self.find(question, |node, _| {
            node.attributes.get("role").is_some_and(|role| role == "radiogroup")
                && node.attributes.get("aria-label").is_some_and(|label| label == question)
        });
        let children = self.page.nodes[group].children.clone();
        let at = children
            .into_iter()
            .find(|at| {
                self.page.nodes[*at]
                    .attributes
                    .get("data-word")
                    .is_some_and(|of| of == word)
            })
            .unwrap_or_else(|| panic!("{question} has no choice {word}"));
        self.taps += 1;
        self.send(at, "click", "");
    }

    /// Fills the field with this id.
    pub fn enter(&mut self, id: &str, value: &str) {
        let at = self.find(id, |node, _| node.attributes.get("id").is_some_and(|of| of == id));
        self.entries += 1;
        // A field tells of each sign, or when it is left.
        let listens = &self.page.nodes[at].listeners;
        let name = if listens.contains_key("change") {
            "change"
        } else {
            "input"
        };
        self.send(at, name, value);
    }

    /// All words on the page.
    pub fn words(&self) -> String {
        self.page.words(0)
    }

    /// The words of the elements of a class.
    pub fn words_of(&self, class: &str) -> Vec<String> {
        let mut all = Vec::new();
        self.page.all(0, &mut all);
        all.into_iter()
            .filter(|at| {
                let of = self.page.nodes[*at].attributes.get("class");
                of.is_some_and(|of| of.split(' ').any(|word| word == class))
            })
            .map(|at| self.page.words(at))
            .collect()
    }
}
