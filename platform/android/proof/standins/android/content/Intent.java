package android.content;

import android.net.Uri;
import android.os.Parcelable;
import java.util.HashMap;
import java.util.Map;

/** What an app asks of another one, and that one's answer. */
public class Intent implements Parcelable {
    public static final String EXTRA_INTENT = "android.intent.extra.INTENT";

    public final String action;
    public final Map<String, Object> extras = new HashMap<>();
    public String kind;
    public String category;
    public Uri data;
    public ClipData clip;
    public int flags;

    public Intent(String action) {
        this.action = action;
    }

    public static Intent createChooser(Intent target, CharSequence title) {
        Intent chooser = new Intent("android.intent.action.CHOOSER");
        chooser.extras.put(EXTRA_INTENT, target);
        return chooser;
    }

    public Intent putExtra(String name, Parcelable value) {
        extras.put(name, value);
        return this;
    }

    public Intent putExtra(String name, Parcelable[] value) {
        extras.put(name, value);
        return this;
    }

    public Intent putExtra(String name, String value) {
        extras.put(name, value);
        return this;
    }

    public Intent addCategory(String category) {
        this.category = category;
        return this;
    }

    public Intent setType(String kind) {
        this.kind = kind;
        return this;
    }

    public Intent addFlags(int flags) {
        this.flags |= flags;
        return this;
    }

    public void setClipData(ClipData clip) {
        this.clip = clip;
    }

    public Uri getData() {
        return data;
    }
}
