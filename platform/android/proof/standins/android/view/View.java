package android.view;

import android.content.Context;
import device.Device;

/** Something on the screen. */
public class View {
    public View(Context app) {}

    public boolean post(Runnable work) {
        Device.onScreen(work);
        return true;
    }

    public void setKeepScreenOn(boolean on) {
        Device.note("screen " + (on ? "on" : "as ever"));
    }

    public boolean performHapticFeedback(int kind) {
        Device.note("push " + kind);
        return true;
    }
}
