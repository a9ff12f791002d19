package android.content;

import android.net.Uri;
import android.os.ParcelFileDescriptor;
import device.Device;
import java.io.FileNotFoundException;

/** What an app hands out to other apps. */
public abstract class ContentProvider {
    public final Context getContext() {
        return Device.app();
    }

    public abstract boolean onCreate();

    public abstract String getType(Uri address);

    public ParcelFileDescriptor openFile(Uri address, String mode) throws FileNotFoundException {
        throw new FileNotFoundException();
    }
}
