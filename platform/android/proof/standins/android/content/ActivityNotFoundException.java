package android.content;

/** No app on the phone does what was asked for. */
public class ActivityNotFoundException extends RuntimeException {
    private static final long serialVersionUID = 1;
}
