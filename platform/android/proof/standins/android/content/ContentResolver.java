package android.content;

import android.net.Uri;
import device.Device;
import java.io.IOException;
import java.io.OutputStream;

/** The way to other apps' documents. */
public class ContentResolver {
    public final OutputStream openOutputStream(Uri document, String mode) throws IOException {
        return Device.write(document, mode);
    }
}
