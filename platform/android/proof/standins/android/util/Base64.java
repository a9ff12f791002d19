package android.util;

/** The encoding in which the page hands bytes over. */
public class Base64 {
    private Base64() {}

    public static byte[] decode(String text, int flags) {
        return java.util.Base64.getMimeDecoder().decode(text);
    }
}
