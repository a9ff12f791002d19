package io.curbcore.page;

import android.app.Activity;
import android.content.ActivityNotFoundException;
import android.content.Intent;
import android.net.Uri;
import android.os.Bundle;
import android.util.Base64;
import android.widget.Toast;
import java.io.File;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Map;

/**
 * The files that a person saves. Each is collected piece by piece in the app's cache, so that a
 * large one need not fit into memory; then the phone's save dialog asks where it goes, one file after
 * the other. Android may end the app while that dialog is open: what waits is remembered.
 */
final class Outgoing {
    private static final String STATE = "outgoing";

    /** A file that was handed over: its name for the person, its kind, and its bytes in the cache. */
    private static final class Waiting {
        final String name;
        final String kind;
        final File bytes;

        Waiting(String name, String kind, File bytes) {
            this.name = name;
            this.kind = kind;
            this.bytes = bytes;
        }
    }

    private final Activity app;
    /** Files of which the last piece has not come; touched by the web view's thread alone. */
    private final Map<String, File> collecting = new HashMap<>();
    /** Whole files. The first one's dialog is open while `asking`. Both belong to the app's thread. */
    private final ArrayDeque<Waiting> waiting = new ArrayDeque<>();
    private boolean asking;

    Outgoing(Activity app, Bundle state) {
        this.app = app;
        ArrayList<String> kept = state == null ? null : state.getStringArrayList(STATE);
        for (int at = 0; kept != null && at + 2 < kept.size(); at += 3) {
            waiting.add(new Waiting(kept.get(at), kept.get(at + 1), new File(kept.get(at + 2))));
            asking = true;
        }
    }

    /** Remembers what waits, for the next life of the app. */
    void remember(Bundle state) {
        ArrayList<String> kept = new ArrayList<>();
        for (Waiting file : waiting) {
            kept.add(file.name);
            kept.add(file.kind);
            kept.add(file.bytes.getPath());
        }
        state.putStringArrayList(STATE, kept);
    }

    /** Takes a piece of a file; with its last one the file waits for its place. */
    void take(String id, String name, String kind, String base64, boolean last) {
        boolean first = !collecting.containsKey(id);
        File bytes = collecting.get(id);
        try {
            if (first) {
                bytes = File.createTempFile("outgoing", null, app.getCacheDir());
                collecting.put(id, bytes);
            }
            if (bytes != null) {
                append(bytes, Base64.decode(base64, Base64.DEFAULT));
            }
        } catch (IOException full) {
            // The rest of its pieces goes nowhere.
            if (bytes != null) {
                bytes.delete();
            }
            bytes = null;
            collecting.put(id, null);
            say(app.getString(R.string.not_saved, name, full.getLocalizedMessage()));
        }
        if (!last) {
            return;
        }
        collecting.remove(id);
        if (bytes != null) {
            final Waiting file = new Waiting(name, kind, bytes);
            app.runOnUiThread(new Runnable() {
                @Override
                public void run() {
                    waiting.add(file);
                    ask();
                }
            });
        }
    }

    /** The save dialog was closed, with a place or without. */
    void answered(int result, Intent data) {
        asking = false;
        final Waiting file = waiting.poll();
        final Uri place = data == null ? null : data.getData();
        if (file != null && result == Activity.RESULT_OK && place != null) {
            // The place may be slow: a card, another app's storage.
            new Thread(new Runnable() {
                @Override
                public void run() {
                    write(file, place);
                }
            }).start();
        } else if (file != null) {
            file.bytes.delete();
        }
        ask();
    }

    /** Opens the phone's save dialog for the first file that waits. */
    private void ask() {
        Waiting file = waiting.peek();
        if (asking || file == null) {
            return;
        }
        Intent dialog = new Intent(Intent.ACTION_CREATE_DOCUMENT);
        dialog.addCategory(Intent.CATEGORY_OPENABLE);
        dialog.setType(file.kind);
        dialog.putExtra(Intent.EXTRA_TITLE, file.name);
        try {
            asking = true;
            app.startActivityForResult(dialog, Shell.SAVE);
        } catch (ActivityNotFoundException nobody) {
            asking = false;
            waiting.remove().bytes.delete();
            say(app.getString(R.string.no_save_dialog, file.name));
            ask();
        }
    }

    /** Writes a file to the place that the person chose. */
    private void write(Waiting file, Uri place) {
        try {
            Copy.run(app.getContentResolver(), file.bytes, place);
            say(app.getString(R.string.saved, file.name));
        } catch (IOException | RuntimeException refused) {
            say(app.getString(R.string.not_saved, file.name, refused.getLocalizedMessage()));
        } finally {
            file.bytes.delete();
        }
    }

    private static void append(File file, byte[] piece) throws IOException {
        try (OutputStream out = new FileOutputStream(file, true)) {
            out.write(piece);
        }
    }

    /** Shows a short text over the page, from whatever thread. */
    private void say(final String words) {
        app.runOnUiThread(new Runnable() {
            @Override
            public void run() {
                Toast.makeText(app, words, Toast.LENGTH_LONG).show();
            }
        });
    }
}
