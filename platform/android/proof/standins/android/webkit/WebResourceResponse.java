package android.webkit;

import java.io.InputStream;
import java.util.Map;

/** What a page gets. */
public class WebResourceResponse {
    public final String kind;
    public final int status;
    public final InputStream bytes;

    public WebResourceResponse(String kind, String encoding, InputStream bytes) {
        this(kind, encoding, 200, "OK", null, bytes);
    }

    public WebResourceResponse(String kind, String encoding, int status, String reason, Map<String, String> heads, InputStream bytes) {
        this.kind = kind;
        this.status = status;
        this.bytes = bytes;
    }
}
