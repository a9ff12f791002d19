package android.webkit;

import android.content.Context;
import android.view.View;
import device.Device;

/** A web view: the page itself is in Chromium, outside. */
public class WebView extends View {
    public WebView(Context app) {
        super(app);
        if (Device.noWebView) {
            throw new RuntimeException("no web view on this phone");
        }
        Device.view = this;
    }

    public WebSettings getSettings() {
        return new WebSettings();
    }

    public void setWebViewClient(WebViewClient client) {
        Device.client = client;
    }

    public void setWebChromeClient(WebChromeClient chrome) {
        Device.chrome = chrome;
    }

    public void addJavascriptInterface(Object offered, String name) {
        Device.offer(name, offered);
    }

    public void loadUrl(String address) {
        Device.note("load " + address);
    }

    public boolean canGoBack() {
        return Device.canGoBack;
    }

    public void goBack() {
        Device.note("back");
    }

    public void destroy() {
        Device.note("view destroyed");
    }

    @Override
    public String toString() {
        return "the web view";
    }
}
