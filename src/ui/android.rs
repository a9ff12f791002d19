//! What only Android's own interface gives: its share sheet, its haptics, its screen. Type-checked,
//! never run (platform/android/native/README.md).

use std::path::PathBuf;

use dioxus::mobile::wry::prelude::{dispatch, find_class};

/// Calls Android's interface, `$java`, on the activity and the web view; what it refuses is logged.
macro_rules! on_android {
    ($what:literal, |$java:ident, $activity:ident, $view:ident| $work:block) => {
        dispatch(move |$java, $activity, $view| {
            let mut work = || -> Result<(), Box<dyn std::error::Error>> { $work };
            if let Err(error) = work() {
                tracing::warn!(concat!($what, ": {}"), error);
                let _ = $java.exception_clear();
            }
        })
    };
}

/// The short push under the finger that the phone gives for a long press; needs no permission.
pub fn shake() {
    on_android!("no shake", |java, _activity, view| {
        // HapticFeedbackConstants.LONG_PRESS
        java.call_method(view, "performHapticFeedback", "(I)Z", &[0.into()])?;
        Ok(())
    });
}

/// Keeps the screen on, or no longer.
pub fn stay_awake(awake: bool) {
    on_android!("the screen", |java, _activity, view| {
        java.call_method(view, "setKeepScreenOn", "(Z)V", &[awake.into()])?;
        Ok(())
    });
}

/// Offers files of the app's own storage to other apps, by the phone's share sheet.
pub fn share(files: Vec<PathBuf>) {
    on_android!("not passed on", |java, activity, _view| {
        let package = java
            .call_method(activity, "getPackageName", "()Ljava/lang/String;", &[])?
            .l()?
            .into();
        let package: String = java.get_string(&package)?.into();
        // The manifest's provider hands out the folders of res/xml/curbcore_photos.xml.
        let authority = java.new_string(format!("{package}.fileprovider"))?;
        let provider = find_class(java, activity, "androidx.core.content.FileProvider".to_owned())?;
        let addresses = java.new_object("java/util/ArrayList", "()V", &[])?;
        for file in &files {
            let path = java.new_string(file.to_string_lossy())?;
            let file = java.new_object("java/io/File", "(Ljava/lang/String;)V", &[(&path).into()])?;
            let address = java
                .call_static_method(
                    &provider,
                    "getUriForFile",
                    "(Landroid/content/Context;Ljava/lang/String;Ljava/io/File;)Landroid/net/Uri;",
                    &[activity.into(), (&authority).into(), (&file).into()],
                )?
                .l()?;
            java.call_method(&addresses, "add", "(Ljava/lang/Object;)Z", &[(&address).into()])?;
        }
        let action = java.new_string("android.intent.action.SEND_MULTIPLE")?;
        let intent = java.new_object("android/content/Intent", "(Ljava/lang/String;)V", &[(&action).into()])?;
        let kind = java.new_string("*/*")?;
        java.call_method(
            &intent,
            "setType",
            "(Ljava/lang/String;)Landroid/content/Intent;",
            &[(&kind).into()],
        )?;
        let stream = java.new_string("android.intent.extra.STREAM")?;
        java.call_method(
            &intent,
            "putParcelableArrayListExtra",
            "(Ljava/lang/String;Ljava/util/ArrayList;)Landroid/content/Intent;",
            &[(&stream).into(), (&addresses).into()],
        )?;
        // FLAG_GRANT_READ_URI_PERMISSION
        java.call_method(&intent, "addFlags", "(I)Landroid/content/Intent;", &[1.into()])?;
        let title = java.new_string("Curbcore")?;
        let sheet = java
            .call_static_method(
                "android/content/Intent",
                "createChooser",
                "(Landroid/content/Intent;Ljava/lang/CharSequence;)Landroid/content/Intent;",
                &[(&intent).into(), (&title).into()],
            )?
            .l()?;
        java.call_method(
            activity,
            "startActivity",
            "(Landroid/content/Intent;)V",
            &[(&sheet).into()],
        )?;
        Ok(())
    });
}
