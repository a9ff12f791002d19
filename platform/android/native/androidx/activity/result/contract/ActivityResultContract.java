package androidx.activity.result.contract;

public abstract class ActivityResultContract<I, O> {}
