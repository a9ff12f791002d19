package android.webkit;

/** Why the process that draws a page is gone. */
public abstract class RenderProcessGoneDetail {
    public abstract boolean didCrash();
}
