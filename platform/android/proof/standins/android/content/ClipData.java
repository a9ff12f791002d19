package android.content;

import android.net.Uri;

/** Addresses that go with an intent, for what its flags grant. */
public class ClipData {
    public final Uri address;

    private ClipData(Uri address) {
        this.address = address;
    }

    public static ClipData newRawUri(CharSequence label, Uri address) {
        return new ClipData(address);
    }
}
