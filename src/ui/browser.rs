//! The same app as a page of a browser.

use std::cell::RefCell;
use std::rc::Rc;

use dioxus::prelude::*;
use futures_channel::mpsc::{UnboundedReceiver, unbounded};

use super::state::AppState;
use super::words::say_with;
use super::{App, DataFolder};
use crate::store;
use crate::text::Arg;

/// Reasons why changes could not be kept, as they come; taken once, by the app.
#[derive(Clone)]
struct Troubles(Rc<RefCell<Option<UnboundedReceiver<String>>>>);

/// Fetches the data, then shows the app in the page's element `main`.
pub fn launch_in_browser() {
    wasm_bindgen_futures::spawn_local(async {
        let (tell, troubles) = unbounded();
        store::fetch_data(move |reason| {
            tracing::error!("not kept: {reason}");
            let _ = tell.unbounded_send(reason);
        })
        .await;
        // Where there is no folder, opening tells why.
        let folder = store::data_folder().unwrap_or_default();
        let dom = VirtualDom::new(App)
            .with_root_context(DataFolder(folder))
            .with_root_context(Troubles(Rc::new(RefCell::new(Some(troubles)))));
        dioxus::web::launch::launch_virtual_dom(dom, dioxus::web::Config::new().rootname("main"));
    });
}

/// Tells the person when the browser could not keep what they changed.
pub fn tell_of_trouble(mut app: Signal<AppState>) {
    let troubles = use_context::<Troubles>();
    use_future(move || {
        let troubles = troubles.0.take();
        async move {
            let Some(mut troubles) = troubles else { return };
            while let Ok(reason) = troubles.recv().await {
                let text = say_with("ui-not-kept", &[("reason", Arg::Text(&reason))]);
                app.write().tell(text);
            }
        }
    });
}
