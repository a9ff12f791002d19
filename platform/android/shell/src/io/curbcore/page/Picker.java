package io.curbcore.page;

import android.app.Activity;
import android.content.ActivityNotFoundException;
import android.content.ClipData;
import android.content.Intent;
import android.net.Uri;
import android.os.Parcelable;
import android.provider.MediaStore;
import android.webkit.ValueCallback;
import android.webkit.WebChromeClient;
import android.webkit.WebView;

/** A file input of the page was tapped: the phone's own dialog finds the file, or its camera app. */
final class Picker extends WebChromeClient {
    private final Activity app;

    /** Where the page waits for its files. It must be answered, or no file input opens any more. */
    private ValueCallback<Uri[]> waits;

    Picker(Activity app) {
        this.app = app;
    }

    @Override
    public boolean onShowFileChooser(WebView view, ValueCallback<Uri[]> page, FileChooserParams asked) {
        answer(null);
        waits = page;
        Intent dialog = Intent.createChooser(asked.createIntent(), null);
        if (asked.isCaptureEnabled()) {
            dialog.putExtra(Intent.EXTRA_INITIAL_INTENTS, new Parcelable[] {camera()});
        }
        try {
            app.startActivityForResult(dialog, Shell.PICK);
        } catch (ActivityNotFoundException nobody) {
            answer(null);
        }
        return true;
    }

    /** The dialog was closed, with a file or without. */
    void answered(int result, Intent data) {
        Uri[] found = WebChromeClient.FileChooserParams.parseResult(result, data);
        // A camera app names no file: its photo is there, or not.
        boolean unnamed = data == null || data.getData() == null;
        if (result == Activity.RESULT_OK && unnamed && Photo.file(app).length() > 0) {
            found = new Uri[] {Photo.ADDRESS};
        }
        answer(found);
    }

    /** The phone's camera app, with a place for its photo that it may write to and read from. */
    private Intent camera() {
        Photo.file(app).delete();
        Intent camera = new Intent(MediaStore.ACTION_IMAGE_CAPTURE);
        camera.putExtra(MediaStore.EXTRA_OUTPUT, Photo.ADDRESS);
        camera.setClipData(ClipData.newRawUri("", Photo.ADDRESS));
        camera.addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION | Intent.FLAG_GRANT_WRITE_URI_PERMISSION);
        return camera;
    }

    private void answer(Uri[] files) {
        ValueCallback<Uri[]> page = waits;
        waits = null;
        if (page != null) {
            page.onReceiveValue(files);
        }
    }
}
