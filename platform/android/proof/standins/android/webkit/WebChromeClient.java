package android.webkit;

import android.app.Activity;
import android.content.Intent;
import android.net.Uri;

/** What an app does for a page around it. */
public class WebChromeClient {
    public boolean onShowFileChooser(WebView view, ValueCallback<Uri[]> page, FileChooserParams asked) {
        return false;
    }

    public void onPermissionRequest(PermissionRequest asked) {
        asked.deny();
    }

    /** What a file input asks for. */
    public abstract static class FileChooserParams {
        public abstract Intent createIntent();

        public abstract boolean isCaptureEnabled();

        public static Uri[] parseResult(int result, Intent data) {
            return result == Activity.RESULT_OK && data != null && data.getData() != null ? new Uri[] {data.getData()} : null;
        }
    }
}
