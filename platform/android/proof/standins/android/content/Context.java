package android.content;

import android.content.res.AssetManager;
import device.Device;
import java.io.File;

/** What an app reaches of the phone. */
public class Context {
    public AssetManager getAssets() {
        return new AssetManager();
    }

    public int checkSelfPermission(String permission) {
        return Device.permission(permission);
    }

    public File getCacheDir() {
        return Device.cache();
    }

    public ContentResolver getContentResolver() {
        return new ContentResolver();
    }

    public final String getString(int id, Object... values) {
        return String.format(Device.text(id), values);
    }
}
