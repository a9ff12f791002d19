package io.curbcore.page;

import android.content.ContentResolver;
import android.net.Uri;
import android.provider.DocumentsContract;
import java.io.File;
import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;

/** A copy of a file to a document of another app. */
final class Copy {
    private Copy() {}

    /**
     * Copies the file. Where that fails half-way, the document is removed: half a file must not look
     * like a whole one.
     */
    static void run(ContentResolver documents, File from, Uri to) throws IOException {
        boolean whole = false;
        try {
            bytes(documents, from, to);
            whole = true;
        } finally {
            if (!whole) {
                remove(documents, to);
            }
        }
    }

    private static void bytes(ContentResolver documents, File from, Uri to) throws IOException {
        // "t": a longer file that the person replaces leaves no end of its own.
        try (InputStream in = new FileInputStream(from);
                OutputStream out = documents.openOutputStream(to, "wt")) {
            if (out == null) {
                throw new IOException("the place is not there any more");
            }
            byte[] piece = new byte[1 << 16];
            for (int length = in.read(piece); length >= 0; length = in.read(piece)) {
                out.write(piece, 0, length);
            }
        }
    }

    private static void remove(ContentResolver documents, Uri document) {
        try {
            DocumentsContract.deleteDocument(documents, document);
        } catch (Exception kept) {
            // Not every app lets its documents be removed; the person is told that it failed.
        }
    }
}
