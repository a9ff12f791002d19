package android.widget;

import android.content.Context;
import device.Device;

/** A short text over the screen. */
public class Toast {
    private final String words;

    private Toast(String words) {
        this.words = words;
    }

    public static Toast makeText(Context app, CharSequence words, int length) {
        return new Toast(words.toString());
    }

    public void show() {
        Device.note("say " + words);
    }
}
