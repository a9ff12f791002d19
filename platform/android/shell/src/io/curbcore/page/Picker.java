package io.curbcore.page;

import android.app.Activity;
import android.content.ActivityNotFoundException;
import android.content.ClipData;
import android.content.Intent;
import android.net.Uri;
import android.os.Parcelable;
import android.provider.MediaStore;
import android.webkit.PermissionRequest;
import android.webkit.ValueCallback;
import android.webkit.WebChromeClient;
import android.webkit.WebView;

/**
 * What the page asks of the person: a file, which the phone's own dialog finds, or its camera app; and the
 * camera itself, for the live view.
 */
final class Picker extends WebChromeClient {
    private final Activity app;
    private final Camera camera;

    /** Where the page waits for its files. It must be answered, or no file input opens any more. */
    private ValueCallback<Uri[]> waits;

    Picker(Activity app, Camera camera) {
        this.app = app;
        this.camera = camera;
    }

    /** The page gets the camera where the person allows it, and nothing else: no microphone, no other page. */
    @Override
    public void onPermissionRequest(final PermissionRequest asked) {
        if (!Pages.isOwn(asked.getOrigin()) || !wantsCameraAlone(asked)) {
            asked.deny();
            return;
        }
        camera.ask(new Camera.Answer() {
            @Override
            public void allowed(boolean may) {
                if (may) {
                    asked.grant(new String[] {PermissionRequest.RESOURCE_VIDEO_CAPTURE});
                } else {
                    asked.deny();
                }
            }
        });
    }

    private static boolean wantsCameraAlone(PermissionRequest asked) {
        String[] all = asked.getResources();
        return all.length == 1 && all[0].equals(PermissionRequest.RESOURCE_VIDEO_CAPTURE);
    }

    @Override
    public boolean onShowFileChooser(WebView view, ValueCallback<Uri[]> page, FileChooserParams asked) {
        answer(null);
        waits = page;
        final Intent files = asked.createIntent();
        if (!asked.isCaptureEnabled()) {
            open(files, false);
            return true;
        }
        camera.ask(new Camera.Answer() {
            @Override
            public void allowed(boolean may) {
                open(files, may);
            }
        });
        return true;
    }

    /** Opens the dialog, with the camera app in it or without. */
    private void open(Intent files, boolean withCamera) {
        Intent dialog = Intent.createChooser(files, null);
        if (withCamera) {
            dialog.putExtra(Intent.EXTRA_INITIAL_INTENTS, new Parcelable[] {cameraApp()});
        }
        try {
            app.startActivityForResult(dialog, Shell.PICK);
        } catch (ActivityNotFoundException nobody) {
            answer(null);
        }
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
    private Intent cameraApp() {
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
