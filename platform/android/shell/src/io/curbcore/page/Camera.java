package io.curbcore.page;

import android.Manifest;
import android.app.Activity;
import android.content.pm.PackageManager;
import java.util.ArrayList;
import java.util.List;

/**
 * The phone's permission for the camera, asked for when it is first needed: by the page's live view, or
 * for the camera app, which an app that names this permission may not open without it.
 */
final class Camera {
    /** What waits for the person's answer. */
    interface Answer {
        void allowed(boolean may);
    }

    private final Activity app;
    private final List<Answer> waiting = new ArrayList<>();

    Camera(Activity app) {
        this.app = app;
    }

    /** Answers at once where the person has allowed the camera; else the phone asks. */
    void ask(Answer answer) {
        if (app.checkSelfPermission(Manifest.permission.CAMERA) == PackageManager.PERMISSION_GRANTED) {
            answer.allowed(true);
            return;
        }
        waiting.add(answer);
        if (waiting.size() == 1) {
            app.requestPermissions(new String[] {Manifest.permission.CAMERA}, Shell.ALLOW);
        }
    }

    /** The person has answered; a question that was closed has no result. */
    void answered(int[] results) {
        boolean may = results.length > 0 && results[0] == PackageManager.PERMISSION_GRANTED;
        List<Answer> all = new ArrayList<>(waiting);
        waiting.clear();
        for (Answer each : all) {
            each.allowed(may);
        }
    }
}
