package androidx.core.content;

import android.content.Context;
import android.net.Uri;
import java.io.File;

public class FileProvider {
    public static Uri getUriForFile(Context context, String authority, File file) {
        throw new UnsupportedOperationException();
    }
}
