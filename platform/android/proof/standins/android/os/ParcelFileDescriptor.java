package android.os;

import java.io.File;
import java.io.FileNotFoundException;

/** An open file that one app hands to another. */
public class ParcelFileDescriptor {
    public static final int MODE_READ_ONLY = 0x10000000;
    public static final int MODE_WRITE_ONLY = 0x20000000;
    public static final int MODE_CREATE = 0x08000000;
    public static final int MODE_TRUNCATE = 0x04000000;

    public final File file;
    public final int mode;

    private ParcelFileDescriptor(File file, int mode) {
        this.file = file;
        this.mode = mode;
    }

    public static ParcelFileDescriptor open(File file, int mode) throws FileNotFoundException {
        if ((mode & MODE_CREATE) == 0 && !file.exists()) {
            throw new FileNotFoundException(file.getPath());
        }
        return new ParcelFileDescriptor(file, mode);
    }

    public static int parseMode(String mode) {
        switch (mode) {
            case "r":
                return MODE_READ_ONLY;
            case "w":
            case "wt":
                return MODE_WRITE_ONLY | MODE_CREATE | MODE_TRUNCATE;
            default:
                throw new IllegalArgumentException(mode);
        }
    }
}
