package androidx.activity.result.contract;

import android.content.Intent;
import androidx.activity.result.ActivityResult;
import java.util.Map;

public final class ActivityResultContracts {
    private ActivityResultContracts() {}

    public static final class RequestMultiplePermissions extends ActivityResultContract<String[], Map<String, Boolean>> {}

    public static final class StartActivityForResult extends ActivityResultContract<Intent, ActivityResult> {}
}
