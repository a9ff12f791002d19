package android.app;

import android.content.Context;
import android.content.Intent;
import android.os.Bundle;
import android.view.View;
import device.Device;

/** A screen of an app: what it asks of the phone is noted, and dialogs are answered from outside. */
public class Activity extends Context {
    public static final int RESULT_OK = -1;

    protected void onCreate(Bundle state) {}

    protected void onSaveInstanceState(Bundle state) {}

    protected void onActivityResult(int asked, int result, Intent data) {}

    public void onRequestPermissionsResult(int asked, String[] permissions, int[] results) {}

    public final void requestPermissions(String[] permissions, int number) {
        Device.askPermission(permissions, number);
    }

    protected void onDestroy() {}

    public void onBackPressed() {
        Device.note("leave");
    }

    public void finish() {
        Device.note("finish");
    }

    public void recreate() {
        Device.note("recreate");
    }

    public void setContentView(View view) {
        Device.note("show " + view);
    }

    public void startActivityForResult(Intent intent, int asked) {
        Device.start(intent, asked);
    }

    public final void runOnUiThread(Runnable work) {
        Device.onScreen(work);
    }
}
