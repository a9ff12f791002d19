package android.os;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.Map;

/** What an app remembers when the phone ends it. */
public final class Bundle {
    private final Map<String, ArrayList<String>> lists = new HashMap<>();

    public void putStringArrayList(String name, ArrayList<String> list) {
        lists.put(name, new ArrayList<>(list));
    }

    public ArrayList<String> getStringArrayList(String name) {
        return lists.get(name);
    }
}
