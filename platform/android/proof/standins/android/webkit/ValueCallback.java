package android.webkit;

/** Where a web view waits for an answer. */
public interface ValueCallback<T> {
    void onReceiveValue(T value);
}
