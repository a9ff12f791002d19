package android.net;

import java.net.URI;

/** An address. */
public final class Uri {
    private final URI address;

    private Uri(URI address) {
        this.address = address;
    }

    public static Uri parse(String text) {
        return new Uri(URI.create(text));
    }

    public String getScheme() {
        return address.getScheme();
    }

    public String getHost() {
        return address.getHost();
    }

    public String getPath() {
        return address.getPath();
    }

    @Override
    public String toString() {
        return address.toString();
    }
}
