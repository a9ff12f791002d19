package android.webkit;

import device.Device;

/** What a web view is allowed. */
public class WebSettings {
    public void setJavaScriptEnabled(boolean on) {
        Device.note("scripts " + on);
    }

    public void setDomStorageEnabled(boolean on) {
        Device.note("storage " + on);
    }

    public void setMediaPlaybackRequiresUserGesture(boolean wanted) {}

    public void setAllowFileAccess(boolean on) {
        Device.note("files by address " + on);
    }
}
