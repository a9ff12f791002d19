package io.curbcore.page;

import android.view.HapticFeedbackConstants;
import android.webkit.JavascriptInterface;
import android.webkit.WebView;

/**
 * What the page may ask of the phone, as its object CurbcoreShell (platform/web/page/start.js,
 * assets/phone.js, src/ui/phone.rs). Only the annotated methods are in the page's reach. They come
 * on a thread of the web view's own; the screen belongs to the app's.
 */
public final class Bridge {
    private final WebView view;
    private final Outgoing outgoing;

    Bridge(WebView view, Outgoing outgoing) {
        this.view = view;
        this.outgoing = outgoing;
    }

    /**
     * Takes one piece of a file that the person saves. The pieces of a file come in their order,
     * under a name of the page's choice for the whole of it; after the last one the phone asks where
     * to save it.
     */
    @JavascriptInterface
    public void save(String id, String name, String kind, String base64, boolean last) {
        outgoing.take(id, name, kind, base64, last);
    }

    /** Keeps the screen on, or no longer. */
    @JavascriptInterface
    public void awake(final boolean awake) {
        view.post(new Runnable() {
            @Override
            public void run() {
                view.setKeepScreenOn(awake);
            }
        });
    }

    /** Gives a short push under the finger, as for a long press; it needs no permission. */
    @JavascriptInterface
    public void shake() {
        view.post(new Runnable() {
            @Override
            public void run() {
                view.performHapticFeedback(HapticFeedbackConstants.LONG_PRESS);
            }
        });
    }
}
