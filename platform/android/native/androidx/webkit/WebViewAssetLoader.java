package androidx.webkit;

import android.content.Context;
import android.net.Uri;
import android.webkit.WebResourceResponse;

public final class WebViewAssetLoader {
    public WebResourceResponse shouldInterceptRequest(Uri address) {
        throw new UnsupportedOperationException();
    }

    public interface PathHandler {
        WebResourceResponse handle(String path);
    }

    public static final class AssetsPathHandler implements PathHandler {
        public AssetsPathHandler(Context context) {}

        @Override
        public WebResourceResponse handle(String path) {
            throw new UnsupportedOperationException();
        }
    }

    public static final class Builder {
        public Builder setDomain(String domain) {
            throw new UnsupportedOperationException();
        }

        public Builder addPathHandler(String path, PathHandler handler) {
            throw new UnsupportedOperationException();
        }

        public WebViewAssetLoader build() {
            throw new UnsupportedOperationException();
        }
    }
}
