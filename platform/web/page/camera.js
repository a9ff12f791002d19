// The camera of the live view (src/ui/measure/photo/camera.rs). Frames are asked for one at a time, so
// that none waits: each is the newest. No picture is kept here, and none leaves the page.
const MOST = 4096;

let stream = null;
/** Pixels of the long side of the picture that `take` gives, where the camera says so. */
let still = null;
/** Ends the wait for a frame. */
let wake = null;
const canvas = document.createElement("canvas");
const context = canvas.getContext("2d", { willReadFrequently: true, alpha: false });

/** Switches the camera off; whoever waits for a frame gets none. */
function close() {
    for (const track of stream?.getTracks() ?? []) track.stop();
    stream = null;
    still = null;
    wake?.(false);
}

// A page that nobody sees has no camera.
document.addEventListener("visibilitychange", () => { if (document.hidden) close(); });
addEventListener("pagehide", close);

/** Asks for the camera: "open", "refused", "absent", "busy", or "off" where the page was hidden meanwhile. */
async function open() {
    close();
    if (!navigator.mediaDevices?.getUserMedia) return "absent";
    try {
        const fresh = await navigator.mediaDevices.getUserMedia({
            audio: false,
            video: { facingMode: { ideal: "environment" }, width: { ideal: 1920 }, height: { ideal: 1440 } },
        });
        close();
        stream = fresh;
    } catch (error) {
        if (error.name === "NotAllowedError" || error.name === "SecurityError") return "refused";
        return error.name === "NotFoundError" || error.name === "OverconstrainedError" ? "absent" : "busy";
    }
    if (document.hidden) {
        close();
        return "off";
    }
    const [track] = stream.getVideoTracks();
    track.addEventListener("ended", close);
    if (globalThis.ImageCapture) {
        const mine = stream;
        try {
            const { imageWidth, imageHeight } = await new ImageCapture(track).getPhotoCapabilities();
            const [width, height] = [imageWidth?.max ?? 0, imageHeight?.max ?? 0];
            const by = Math.min(1, MOST / Math.max(width, height));
            if (mine === stream && width * height > 0) {
                still = { imageWidth: Math.floor(width * by), imageHeight: Math.floor(height * by) };
            }
        } catch {
            // Then the picture is a frame at its full size.
        }
    }
    return stream ? "open" : "off";
}

/** Until the video has its next frame; false where the camera was switched off. */
function shown(video) {
    return new Promise((done) => {
        // A video out of sight tells of no frames.
        const late = setTimeout(() => wake?.(true), 500);
        wake = (on) => {
            clearTimeout(late);
            wake = null;
            done(on);
        };
        const mine = wake;
        const next = () => { if (wake === mine) mine(true); };
        if (video.requestVideoFrameCallback) video.requestVideoFrameCallback(next);
        else setTimeout(next, 50);
    });
}

/** The video element of this id with the stream in it; null where there is none. */
async function playing(id) {
    let video = document.getElementById(id);
    // The screen may draw it a moment later.
    for (let left = 60; !video && left > 0; left -= 1) {
        await new Promise((done) => setTimeout(done, 16));
        video = document.getElementById(id);
    }
    if (!video || !stream) return null;
    if (video.srcObject !== stream) {
        video.srcObject = stream;
        await video.play().catch(() => {});
    }
    return video;
}

/**
 * The next frame as it is shown in this video element, its long side at most `side` pixels:
 * [width, height, pixels of the picture to one of the frame, red green blue alpha of each pixel];
 * null where the camera is off.
 */
async function frame(id, side) {
    const video = await playing(id);
    while (video && stream) {
        if (!(await shown(video)) || !stream) return null;
        const [width, height] = [video.videoWidth, video.videoHeight];
        if (width * height === 0) continue;
        const by = Math.min(1, side / Math.max(width, height));
        const [across, down] = [Math.round(width * by), Math.round(height * by)];
        if (canvas.width !== across || canvas.height !== down) [canvas.width, canvas.height] = [across, down];
        context.drawImage(video, 0, 0, across, down);
        const long = Math.max(width, height, still?.imageWidth ?? 0, still?.imageHeight ?? 0);
        return [across, down, long / Math.max(across, down), context.getImageData(0, 0, across, down).data];
    }
    return null;
}

/** A frame of the video at its full size, as JPEG. */
async function grabbed(video) {
    const full = document.createElement("canvas");
    [full.width, full.height] = [video.videoWidth, video.videoHeight];
    full.getContext("2d", { alpha: false }).drawImage(video, 0, 0);
    return new Promise((done) => full.toBlob(done, "image/jpeg", 0.95));
}

/** Takes the picture at the camera's own size where it does that, and gives its bytes; null where it fails. */
async function take(id, most) {
    const video = await playing(id);
    if (!video) return null;
    let blob = null;
    if (still) {
        const late = new Promise((done) => setTimeout(done, 4000, null));
        const taken = new ImageCapture(stream.getVideoTracks()[0]).takePhoto(still).catch(() => null);
        blob = await Promise.race([taken, late]);
    }
    if (!blob || blob.size > most || !["image/jpeg", "image/png"].includes(blob.type)) {
        blob = stream && video.videoWidth > 0 ? await grabbed(video) : null;
    }
    return blob && new Uint8Array(await blob.arrayBuffer());
}

globalThis.curbcoreCamera = { open, frame, take, close };
