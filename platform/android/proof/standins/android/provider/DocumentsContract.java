package android.provider;

import android.content.ContentResolver;
import android.net.Uri;
import device.Device;
import java.io.FileNotFoundException;

/** What can be done with other apps' documents. */
public final class DocumentsContract {
    private DocumentsContract() {}

    public static boolean deleteDocument(ContentResolver documents, Uri document) throws FileNotFoundException {
        return Device.remove(document);
    }
}
