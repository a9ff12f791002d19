package androidx.core.app;

import android.app.Activity;
import android.content.Context;

public class ActivityCompat {
    public static int checkSelfPermission(Context context, String permission) {
        throw new UnsupportedOperationException();
    }

    public static void requestPermissions(Activity activity, String[] permissions, int code) {
        throw new UnsupportedOperationException();
    }
}
