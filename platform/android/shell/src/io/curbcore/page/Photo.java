package io.curbcore.page;

import android.content.ContentProvider;
import android.content.ContentValues;
import android.content.Context;
import android.database.Cursor;
import android.net.Uri;
import android.os.ParcelFileDescriptor;
import java.io.File;
import java.io.FileNotFoundException;

/**
 * One file of the app's cache that a camera app writes its photo into and the web view reads it
 * from. Nothing else of the app can be reached by it.
 */
public final class Photo extends ContentProvider {
    /** The photo's address; the manifest names the same. */
    static final Uri ADDRESS = Uri.parse("content://io.curbcore.page.photo/photo.jpg");

    static File file(Context context) {
        return new File(context.getCacheDir(), "photo.jpg");
    }

    @Override
    public ParcelFileDescriptor openFile(Uri address, String mode) throws FileNotFoundException {
        return ParcelFileDescriptor.open(file(getContext()), ParcelFileDescriptor.parseMode(mode));
    }

    @Override
    public String getType(Uri address) {
        return "image/jpeg";
    }

    @Override
    public boolean onCreate() {
        return true;
    }

    // There is no table behind the one file.

    @Override
    public Cursor query(Uri address, String[] columns, String where, String[] values, String order) {
        return null;
    }

    @Override
    public Uri insert(Uri address, ContentValues values) {
        return null;
    }

    @Override
    public int delete(Uri address, String where, String[] values) {
        return 0;
    }

    @Override
    public int update(Uri address, ContentValues changes, String where, String[] values) {
        return 0;
    }
}
