package androidx.activity.result;

public abstract class ActivityResultLauncher<I> {
    public void launch(I input) {
        throw new UnsupportedOperationException();
    }
}
