package androidx.webkit;

public class WebViewFeature {
    public static final String DOCUMENT_START_SCRIPT = "DOCUMENT_START_SCRIPT";

    public static boolean isFeatureSupported(String feature) {
        throw new UnsupportedOperationException();
    }
}
