package android.webkit;

import android.net.Uri;

/** What a page asks the app for. */
public abstract class PermissionRequest {
    public static final String RESOURCE_VIDEO_CAPTURE = "android.webkit.resource.VIDEO_CAPTURE";

    public abstract Uri getOrigin();

    public abstract String[] getResources();

    public abstract void grant(String[] resources);

    public abstract void deny();
}
