package android.widget;

import android.content.Context;
import android.view.View;
import device.Device;

/** A text on the screen. */
public class TextView extends View {
    private String words = "";

    public TextView(Context app) {
        super(app);
    }

    public final void setText(int id) {
        words = Device.text(id);
    }

    @Override
    public String toString() {
        return words;
    }
}
