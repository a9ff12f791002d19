package androidx.webkit;

import android.webkit.WebView;
import java.util.Set;

public class WebViewCompat {
    public static void addDocumentStartJavaScript(WebView view, String script, Set<String> origins) {
        throw new UnsupportedOperationException();
    }
}
