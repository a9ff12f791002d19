package androidx.activity.result;

import android.content.Intent;

public final class ActivityResult {
    public int getResultCode() {
        throw new UnsupportedOperationException();
    }

    public Intent getData() {
        throw new UnsupportedOperationException();
    }
}
