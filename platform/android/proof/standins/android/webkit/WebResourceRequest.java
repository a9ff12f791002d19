package android.webkit;

import android.net.Uri;

/** What a page asks for. */
public interface WebResourceRequest {
    Uri getUrl();
}
