package io.curbcore.page;

import android.app.Activity;
import android.content.res.AssetManager;
import android.net.Uri;
import android.webkit.RenderProcessGoneDetail;
import android.webkit.WebResourceRequest;
import android.webkit.WebResourceResponse;
import android.webkit.WebView;
import android.webkit.WebViewClient;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.Map;

/**
 * Hands the page's files out of the package, under an address of the package's own. Every other
 * request is answered here too, by 404: none reaches a network.
 */
final class Pages extends WebViewClient {
    private static final String HOST = "curbcore.localhost";

    /** Whether an address is one of the package's own. */
    static boolean isOwn(Uri address) {
        return "https".equals(address.getScheme()) && HOST.equals(address.getHost());
    }

    /** Where the page begins. */
    static final String HOME = "https://" + HOST + "/";

    /** What a file is, by the end of its name: a web view refuses a script or a program of another kind. */
    private static final Map<String, String> KINDS = new HashMap<>();

    static {
        KINDS.put("html", "text/html");
        KINDS.put("js", "text/javascript");
        KINDS.put("css", "text/css");
        KINDS.put("wasm", "application/wasm");
        KINDS.put("svg", "image/svg+xml");
        KINDS.put("png", "image/png");
        KINDS.put("webmanifest", "application/manifest+json");
    }

    private final Activity app;
    private final AssetManager assets;

    Pages(Activity app) {
        this.app = app;
        assets = app.getAssets();
    }

    @Override
    public WebResourceResponse shouldInterceptRequest(WebView view, WebResourceRequest request) {
        String path = request.getUrl().getPath();
        if (!HOST.equals(request.getUrl().getHost()) || path == null) {
            return missing();
        }
        if (path.equals("/")) {
            path = "/index.html";
        }
        try {
            return new WebResourceResponse(kind(path), "utf-8", assets.open("page" + path));
        } catch (IOException absent) {
            return missing();
        }
    }

    /**
     * The process that draws the page is gone (Android 8 and newer tell; an app that does not answer
     * is ended). Taken for its memory, it is started again, and the page opens where it was. After a
     * fault of its own the app closes: nothing that was done is lost, and no fault repeats unseen.
     */
    @Override
    public boolean onRenderProcessGone(WebView view, RenderProcessGoneDetail detail) {
        if (detail.didCrash()) {
            app.finish();
        } else {
            app.recreate();
        }
        return true;
    }

    private static String kind(String path) {
        String kind = KINDS.get(path.substring(path.lastIndexOf('.') + 1));
        return kind == null ? "application/octet-stream" : kind;
    }

    private static WebResourceResponse missing() {
        ByteArrayInputStream nothing = new ByteArrayInputStream(new byte[0]);
        return new WebResourceResponse("text/plain", "utf-8", 404, "Not here", null, nothing);
    }
}
