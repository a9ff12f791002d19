package device;

import android.app.Activity;
import android.content.ActivityNotFoundException;
import android.content.ClipData;
import android.content.ContentProvider;
import android.content.Context;
import android.content.Intent;
import android.net.Uri;
import android.os.Bundle;
import android.os.ParcelFileDescriptor;
import android.os.Parcelable;
import android.webkit.PermissionRequest;
import android.webkit.RenderProcessGoneDetail;
import android.webkit.WebChromeClient;
import android.webkit.WebResourceResponse;
import android.webkit.WebView;
import android.webkit.WebViewClient;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.lang.reflect.Method;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/**
 * A phone without Android: it runs the package's own code against stand-ins for Android's classes,
 * and is worked from outside (proof/phone.js) through a server on this machine.
 *
 * <p>Device APK TEXTS CACHE OFFERED...: the package, what `aapt dump --values resources` tells of it,
 * a folder for the app's cache, and the methods that the package marks as offered to its page.
 */
public final class Device {
    /** Whether this phone has no web view. */
    public static volatile boolean noWebView;

    /** Whether the page has a step to go back to. */
    public static volatile boolean canGoBack;

    public static volatile WebView view;
    public static volatile WebViewClient client;
    public static volatile WebChromeClient chrome;

    private static final String PACKAGE = "io.curbcore.page.";
    /** The app's own thread. */
    private static final ExecutorService SCREEN = Executors.newSingleThreadExecutor();
    /** What the app asked of the phone, in turn. */
    private static final List<String> NOTES = new CopyOnWriteArrayList<>();
    private static final Map<Integer, String> TEXTS = new HashMap<>();
    private static final Map<String, byte[]> DOCUMENTS = new ConcurrentHashMap<>();
    private static final Map<String, Object> OFFERS = new ConcurrentHashMap<>();

    private static ZipFile apk;
    private static File cache;
    private static Set<String> offered;
    private static volatile Activity app;
    private static volatile Bundle remembered;
    private static volatile Intent asked;
    private static volatile String picked = "nothing yet";
    private static volatile boolean full;
    private static volatile boolean nobody;
    /** Whether the person has allowed the camera, and the number of the question for it. */
    private static volatile boolean allowed = true;
    private static volatile int question;

    private Device() {}

    public static void main(String[] arguments) throws Exception {
        apk = new ZipFile(arguments[0]);
        cache = new File(arguments[2]);
        offered = Set.of(Arrays.copyOfRange(arguments, 3, arguments.length));
        readTexts(Files.readString(Path.of(arguments[1])));
        HttpServer server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", Device::serve);
        server.start();
        System.out.println("port " + server.getAddress().getPort());
        // Ends with who started it.
        while (System.in.read() >= 0) {}
        System.exit(0);
    }

    // What the stand-ins ask.

    public static Context app() {
        return app;
    }

    public static File cache() {
        return cache;
    }

    public static String text(int id) {
        return TEXTS.get(id);
    }

    public static void note(String what) {
        NOTES.add(what.replace('\n', ' '));
    }

    public static void onScreen(Runnable work) {
        SCREEN.execute(work);
    }

    public static InputStream asset(String name) throws IOException {
        ZipEntry entry = apk.getEntry("assets/" + name);
        if (entry == null) {
            throw new FileNotFoundException(name);
        }
        return apk.getInputStream(entry);
    }

    public static void offer(String name, Object object) {
        OFFERS.put(name, object);
    }

    public static void start(Intent intent, int number) {
        if (nobody) {
            throw new ActivityNotFoundException();
        }
        asked = intent;
        Object title = intent.extras.get("android.intent.extra.TITLE");
        note("start " + number + " " + intent.action + " " + intent.kind + " " + intent.category + " " + title);
    }

    public static int permission(String name) {
        return allowed && name.equals("android.permission.CAMERA") ? 0 : -1;
    }

    public static void askPermission(String[] names, int number) {
        question = number;
        note("ask for " + String.join(" ", names));
    }

    public static OutputStream write(Uri document, String mode) {
        String name = document.toString();
        if (mode.equals("wt")) {
            DOCUMENTS.put(name, new byte[0]);
        }
        return new ByteArrayOutputStream() {
            @Override
            public void close() throws IOException {
                if (full) {
                    throw new IOException("No space left on device");
                }
                DOCUMENTS.put(name, toByteArray());
            }
        };
    }

    public static boolean remove(Uri document) {
        note("remove " + document);
        return DOCUMENTS.remove(document.toString()) != null;
    }

    // What the walk asks.

    private static void serve(HttpExchange exchange) throws IOException {
        byte[] body = exchange.getRequestBody().readAllBytes();
        String words = new String(body, StandardCharsets.UTF_8);
        String path = exchange.getRequestURI().getPath();
        String of = exchange.getRequestURI().getQuery();
        byte[] answer;
        int status = 200;
        try {
            switch (path) {
                case "/life":
                    answer = bytes(screen(() -> life(words)));
                    break;
                case "/notes":
                    answer = bytes(String.join("\n", NOTES));
                    break;
                case "/request":
                    WebResourceResponse response = client.shouldInterceptRequest(view, () -> Uri.parse(words));
                    exchange.getResponseHeaders().add("X-Kind", response.kind);
                    exchange.getResponseHeaders().add("X-Status", String.valueOf(response.status));
                    answer = response.bytes.readAllBytes();
                    break;
                case "/call":
                    call(of, words);
                    answer = new byte[0];
                    break;
                case "/choose":
                    picked = "nothing yet";
                    answer = bytes(screen(() -> choose(words.equals("camera"))));
                    break;
                case "/picked":
                    answer = bytes(picked);
                    break;
                case "/permission":
                    screen(() -> wanted(words.split(" ")));
                    answer = new byte[0];
                    break;
                case "/allow":
                    screen(() -> allow(words));
                    answer = new byte[0];
                    break;
                case "/camera":
                    photograph(body);
                    answer = new byte[0];
                    break;
                case "/answer":
                    String[] parts = words.split(" ");
                    answer = bytes(screen(() -> answered(Integer.parseInt(parts[0]), Integer.parseInt(parts[1]), parts.length > 2 ? parts[2] : null)));
                    break;
                case "/content":
                    answer = content(of);
                    break;
                case "/set":
                    set(of, body);
                    answer = new byte[0];
                    break;
                default:
                    throw new FileNotFoundException(path);
            }
        } catch (Throwable fault) {
            status = fault instanceof FileNotFoundException ? 404 : 500;
            StringBuilder all = new StringBuilder();
            for (Throwable each = fault; each != null; each = each.getCause()) {
                all.append(each).append('\n');
                if (each.getStackTrace().length > 0) {
                    all.append("  at ").append(each.getStackTrace()[0]).append('\n');
                }
            }
            answer = bytes(all.toString());
        }
        exchange.sendResponseHeaders(status, answer.length == 0 ? -1 : answer.length);
        exchange.getResponseBody().write(answer);
        exchange.close();
    }

    private static byte[] bytes(String words) {
        return words.getBytes(StandardCharsets.UTF_8);
    }

    private static String screen(Callable<String> work) throws Exception {
        return SCREEN.submit(work).get();
    }

    /** What happens to the app as a whole. */
    private static String life(String what) throws Exception {
        switch (what) {
            case "create":
                app = (Activity) Class.forName(PACKAGE + "Shell").getConstructor().newInstance();
                invoke("onCreate", Bundle.class, remembered);
                remembered = null;
                break;
            case "remember":
                remembered = new Bundle();
                invoke("onSaveInstanceState", Bundle.class, remembered);
                break;
            case "destroy":
                Method destroy = app.getClass().getDeclaredMethod("onDestroy");
                destroy.setAccessible(true);
                destroy.invoke(app);
                break;
            case "back":
                app.onBackPressed();
                break;
            case "memory taken":
            case "fault":
                RenderProcessGoneDetail detail = new RenderProcessGoneDetail() {
                    @Override
                    public boolean didCrash() {
                        return what.equals("fault");
                    }
                };
                return String.valueOf(client.onRenderProcessGone(view, detail));
            default:
                throw new IllegalArgumentException(what);
        }
        return "";
    }

    private static void invoke(String name, Class<?> kind, Object value) throws Exception {
        Method method = app.getClass().getDeclaredMethod(name, kind);
        method.setAccessible(true);
        method.invoke(app, value);
    }

    /** The page calls what is offered to it, as Android lets it: marked methods only. */
    private static void call(String method, String values) throws Exception {
        Object object = OFFERS.get("CurbcoreShell");
        if (!offered.contains(method)) {
            throw new FileNotFoundException(method + " is not offered to the page");
        }
        String[] given = values.isEmpty() ? new String[0] : values.split("\u001f", -1);
        for (Method each : object.getClass().getMethods()) {
            if (!each.getName().equals(method) || each.getParameterCount() != given.length) {
                continue;
            }
            Object[] typed = new Object[given.length];
            for (int at = 0; at < given.length; at += 1) {
                typed[at] = each.getParameterTypes()[at] == boolean.class ? (Object) Boolean.valueOf(given[at]) : given[at];
            }
            each.invoke(object, typed);
            return;
        }
        throw new FileNotFoundException(method + " with " + given.length + " values");
    }

    /** A page asks for something: its address, and what. What it gets is noted. */
    private static String wanted(String[] words) {
        chrome.onPermissionRequest(new PermissionRequest() {
            @Override
            public Uri getOrigin() {
                return Uri.parse(words[0]);
            }

            @Override
            public String[] getResources() {
                String[] all = Arrays.copyOfRange(words, 1, words.length);
                for (int at = 0; at < all.length; at += 1) {
                    all[at] = "android.webkit.resource." + all[at];
                }
                return all;
            }

            @Override
            public void grant(String[] resources) {
                note("the page gets " + String.join(" ", resources));
            }

            @Override
            public void deny() {
                note("the page gets nothing");
            }
        });
        return "";
    }

    /** The person answers the phone's question for the camera: "yes", "no", or closes it. */
    private static String allow(String answer) {
        allowed = answer.equals("yes");
        int[] results = answer.equals("closed") ? new int[0] : new int[] {allowed ? 0 : -1};
        app.onRequestPermissionsResult(question, new String[] {"android.permission.CAMERA"}, results);
        return "";
    }

    /** A file input of the page was tapped. */
    private static String choose(boolean camera) {
        WebChromeClient.FileChooserParams asked = new WebChromeClient.FileChooserParams() {
            @Override
            public Intent createIntent() {
                return new Intent("android.intent.action.GET_CONTENT");
            }

            @Override
            public boolean isCaptureEnabled() {
                return camera;
            }
        };
        boolean taken = chrome.onShowFileChooser(view, files -> picked = files == null ? "none" : addresses(files), asked);
        return String.valueOf(taken);
    }

    private static String addresses(Uri[] files) {
        List<String> all = new ArrayList<>();
        for (Uri each : files) {
            all.add(each.toString());
        }
        return String.join(" ", all);
    }

    /** The camera app among those that the dialog offers writes a photo where it is allowed to. */
    private static void photograph(byte[] photo) throws Exception {
        Parcelable[] offers = (Parcelable[]) asked.extras.get("android.intent.extra.INITIAL_INTENTS");
        Intent camera = (Intent) offers[0];
        if (!camera.action.equals("android.media.action.IMAGE_CAPTURE")) {
            throw new IllegalStateException(camera.action);
        }
        Uri place = (Uri) camera.extras.get("output");
        ClipData granted = camera.clip;
        if ((camera.flags & 3) != 3 || !granted.address.toString().equals(place.toString())) {
            throw new SecurityException("no right to write to " + place);
        }
        Files.write(provider().openFile(place, "w").file.toPath(), photo);
    }

    private static ContentProvider provider() throws Exception {
        return (ContentProvider) Class.forName(PACKAGE + "Photo").getConstructor().newInstance();
    }

    private static String answered(int number, int result, String address) throws Exception {
        Intent data = address == null ? null : new Intent("");
        if (data != null) {
            data.data = Uri.parse(address);
        }
        Method method = app.getClass().getDeclaredMethod("onActivityResult", int.class, int.class, Intent.class);
        method.setAccessible(true);
        method.invoke(app, number, result, data);
        return "";
    }

    /** What stands behind an address: the app's own photo, or a document. */
    private static byte[] content(String address) throws Exception {
        if (address.startsWith("content://io.curbcore.page.photo/")) {
            ParcelFileDescriptor open = provider().openFile(Uri.parse(address), "r");
            return Files.readAllBytes(open.file.toPath());
        }
        byte[] document = DOCUMENTS.get(address);
        if (document == null) {
            throw new FileNotFoundException(address);
        }
        return document;
    }

    private static void set(String what, byte[] value) {
        switch (what) {
            case "full":
                full = Boolean.parseBoolean(new String(value, StandardCharsets.UTF_8));
                break;
            case "allowed":
                allowed = Boolean.parseBoolean(new String(value, StandardCharsets.UTF_8));
                break;
            case "nobody":
                nobody = Boolean.parseBoolean(new String(value, StandardCharsets.UTF_8));
                break;
            case "noWebView":
                noWebView = Boolean.parseBoolean(new String(value, StandardCharsets.UTF_8));
                break;
            case "canGoBack":
                canGoBack = Boolean.parseBoolean(new String(value, StandardCharsets.UTF_8));
                break;
            default:
                DOCUMENTS.put(what, value);
        }
    }

    /** The package's texts by their numbers, as aapt tells them. */
    private static void readTexts(String dump) {
        Pattern row = Pattern.compile("resource (0x[0-9a-f]+) [\\w.]+:string/\\w+: .*\\n\\s*\\(string\\d+\\) \"((?:[^\"\\\\]|\\\\.)*)\"");
        for (Matcher found = row.matcher(dump); found.find();) {
            TEXTS.put(Integer.decode(found.group(1)), found.group(2));
        }
    }
}
