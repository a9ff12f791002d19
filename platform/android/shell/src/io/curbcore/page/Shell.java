package io.curbcore.page;

import android.app.Activity;
import android.content.Intent;
import android.os.Bundle;
import android.webkit.WebSettings;
import android.webkit.WebView;
import android.widget.TextView;

/**
 * The app: a web view with the page of this package in it. What the page asks of the phone goes
 * through {@link Bridge}, what its file inputs ask through {@link Picker}.
 */
public final class Shell extends Activity {
    /** What a dialog was opened for: its answer comes back under this number. */
    static final int PICK = 1;
    static final int SAVE = 2;

    /** The number of the question for the camera. */
    static final int ALLOW = 3;

    private WebView view;
    private Camera camera;
    private Picker picker;
    private Outgoing outgoing;

    @Override
    protected void onCreate(Bundle state) {
        super.onCreate(state);
        outgoing = new Outgoing(this, state);
        camera = new Camera(this);
        picker = new Picker(this, camera);
        try {
            view = new WebView(this);
        } catch (RuntimeException missing) {
            // The phone's web view is switched off, or is being replaced by a newer one right now.
            TextView words = new TextView(this);
            words.setText(R.string.no_web_view);
            setContentView(words);
            return;
        }
        WebSettings settings = view.getSettings();
        settings.setJavaScriptEnabled(true);
        settings.setDomStorageEnabled(true);
        settings.setAllowFileAccess(false);
        // The live view starts when the person has answered the phone, not when a finger is down.
        settings.setMediaPlaybackRequiresUserGesture(false);
        view.setWebViewClient(new Pages(this));
        view.setWebChromeClient(picker);
        view.addJavascriptInterface(new Bridge(view, outgoing), "CurbcoreShell");
        setContentView(view);
        view.loadUrl(Pages.HOME);
    }

    @Override
    protected void onSaveInstanceState(Bundle state) {
        super.onSaveInstanceState(state);
        outgoing.remember(state);
    }

    @Override
    protected void onActivityResult(int asked, int result, Intent data) {
        if (asked == PICK) {
            picker.answered(result, data);
        } else {
            outgoing.answered(result, data);
        }
    }

    @Override
    public void onRequestPermissionsResult(int asked, String[] permissions, int[] results) {
        if (asked == ALLOW) {
            camera.answered(results);
        }
    }

    /** Each screen is a step of the page's history; the first one's step back leaves the app. */
    @Override
    public void onBackPressed() {
        if (view != null && view.canGoBack()) {
            view.goBack();
        } else {
            super.onBackPressed();
        }
    }

    @Override
    protected void onDestroy() {
        if (view != null) {
            view.destroy();
        }
        super.onDestroy();
    }
}
