package android.content.res;

import device.Device;
import java.io.IOException;
import java.io.InputStream;

/** The files that came in the app's package. */
public final class AssetManager {
    public InputStream open(String name) throws IOException {
        return Device.asset(name);
    }
}
