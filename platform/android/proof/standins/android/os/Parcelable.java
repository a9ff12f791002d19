package android.os;

/** What goes from one app to another. */
public interface Parcelable {}
