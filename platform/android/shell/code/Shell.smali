# The app: a web view with the page in it, and what the page asks of the phone. The page sees it as
# CurbcoreShell, with save, awake and shake (platform/web/page/start.js, assets/phone.js,
# src/ui/phone.rs). Those three come on a thread of the web view's and are done by run, on the app's
# own. What each method does stands before it in Java.
.class public Lio/curbcore/page/Shell;
.super Landroid/app/Activity;
.implements Ljava/lang/Runnable;

.field private view:Landroid/webkit/WebView;
# Who waits for a picked file.
.field private picking:Landroid/webkit/ValueCallback;
# Files to be saved, each as name, kind, base64; the first one's dialog is open while saving is true.
.field private final outgoing:Ljava/util/concurrent/ConcurrentLinkedQueue;
.field private saving:Z
.field private volatile awake:Z
.field private volatile shaking:Z

.method public constructor <init>()V
    .registers 2
    invoke-direct {p0}, Landroid/app/Activity;-><init>()V
    new-instance v0, Ljava/util/concurrent/ConcurrentLinkedQueue;
    invoke-direct {v0}, Ljava/util/concurrent/ConcurrentLinkedQueue;-><init>()V
    iput-object v0, p0, Lio/curbcore/page/Shell;->outgoing:Ljava/util/concurrent/ConcurrentLinkedQueue;
    return-void
.end method

#     view = new WebView(this);
#     view.getSettings().setJavaScriptEnabled(true);   and setDomStorageEnabled(true), setAllowFileAccess(false)
#     view.setWebViewClient(new Pages(getAssets()));
#     view.setWebChromeClient(new Picker(this));
#     view.addJavascriptInterface(this, "CurbcoreShell");
#     setContentView(view);
#     view.loadUrl("https://curbcore.localhost/");
.method protected onCreate(Landroid/os/Bundle;)V
    .registers 6
    invoke-super {p0, p1}, Landroid/app/Activity;->onCreate(Landroid/os/Bundle;)V
    new-instance v0, Landroid/webkit/WebView;
    invoke-direct {v0, p0}, Landroid/webkit/WebView;-><init>(Landroid/content/Context;)V
    iput-object v0, p0, Lio/curbcore/page/Shell;->view:Landroid/webkit/WebView;
    invoke-virtual {v0}, Landroid/webkit/WebView;->getSettings()Landroid/webkit/WebSettings;
    move-result-object v1
    const/4 v2, 0x1
    invoke-virtual {v1, v2}, Landroid/webkit/WebSettings;->setJavaScriptEnabled(Z)V
    invoke-virtual {v1, v2}, Landroid/webkit/WebSettings;->setDomStorageEnabled(Z)V
    const/4 v2, 0x0
    invoke-virtual {v1, v2}, Landroid/webkit/WebSettings;->setAllowFileAccess(Z)V
    new-instance v1, Lio/curbcore/page/Pages;
    invoke-virtual {p0}, Lio/curbcore/page/Shell;->getAssets()Landroid/content/res/AssetManager;
    move-result-object v2
    invoke-direct {v1, v2}, Lio/curbcore/page/Pages;-><init>(Landroid/content/res/AssetManager;)V
    invoke-virtual {v0, v1}, Landroid/webkit/WebView;->setWebViewClient(Landroid/webkit/WebViewClient;)V
    new-instance v1, Lio/curbcore/page/Picker;
    invoke-direct {v1, p0}, Lio/curbcore/page/Picker;-><init>(Lio/curbcore/page/Shell;)V
    invoke-virtual {v0, v1}, Landroid/webkit/WebView;->setWebChromeClient(Landroid/webkit/WebChromeClient;)V
    const-string v1, "CurbcoreShell"
    invoke-virtual {v0, p0, v1}, Landroid/webkit/WebView;->addJavascriptInterface(Ljava/lang/Object;Ljava/lang/String;)V
    invoke-virtual {p0, v0}, Lio/curbcore/page/Shell;->setContentView(Landroid/view/View;)V
    const-string v1, "https://curbcore.localhost/"
    invoke-virtual {v0, v1}, Landroid/webkit/WebView;->loadUrl(Ljava/lang/String;)V
    return-void
.end method

#     if (view.canGoBack()) view.goBack(); else super.onBackPressed();
.method public onBackPressed()V
    .registers 3
    iget-object v0, p0, Lio/curbcore/page/Shell;->view:Landroid/webkit/WebView;
    invoke-virtual {v0}, Landroid/webkit/WebView;->canGoBack()Z
    move-result v1
    if-eqz v1, :leave
    invoke-virtual {v0}, Landroid/webkit/WebView;->goBack()V
    return-void
    :leave
    invoke-super {p0}, Landroid/app/Activity;->onBackPressed()V
    return-void
.end method

#     view.destroy();
.method protected onDestroy()V
    .registers 2
    iget-object v0, p0, Lio/curbcore/page/Shell;->view:Landroid/webkit/WebView;
    invoke-virtual {v0}, Landroid/webkit/WebView;->destroy()V
    invoke-super {p0}, Landroid/app/Activity;->onDestroy()V
    return-void
.end method

#     if (picking != null) picking.onReceiveValue(null);
#     picking = callback;
#     Intent dialog = Intent.createChooser(params.createIntent(), null);
#     if (params.isCaptureEnabled()) {
#         Photo.file(this).delete();
#         Intent camera = new Intent("android.media.action.IMAGE_CAPTURE");
#         camera.putExtra("output", Photo.address());
#         camera.setClipData(ClipData.newRawUri("", Photo.address()));
#         camera.addFlags(FLAG_GRANT_READ_URI_PERMISSION | FLAG_GRANT_WRITE_URI_PERMISSION);
#         dialog.putExtra("android.intent.extra.INITIAL_INTENTS", new Parcelable[] { camera });
#     }
#     try { startActivityForResult(dialog, 1); } catch (ActivityNotFoundException error) { picked(null); }
.method public pick(Landroid/webkit/ValueCallback;Landroid/webkit/WebChromeClient$FileChooserParams;)V
    .registers 9
    const/4 v0, 0x0
    invoke-virtual {p0, v0}, Lio/curbcore/page/Shell;->picked([Landroid/net/Uri;)V
    iput-object p1, p0, Lio/curbcore/page/Shell;->picking:Landroid/webkit/ValueCallback;
    invoke-virtual {p2}, Landroid/webkit/WebChromeClient$FileChooserParams;->createIntent()Landroid/content/Intent;
    move-result-object v1
    invoke-static {v1, v0}, Landroid/content/Intent;->createChooser(Landroid/content/Intent;Ljava/lang/CharSequence;)Landroid/content/Intent;
    move-result-object v1
    invoke-virtual {p2}, Landroid/webkit/WebChromeClient$FileChooserParams;->isCaptureEnabled()Z
    move-result v2
    if-eqz v2, :ask
    invoke-static {p0}, Lio/curbcore/page/Photo;->file(Landroid/content/Context;)Ljava/io/File;
    move-result-object v2
    invoke-virtual {v2}, Ljava/io/File;->delete()Z
    new-instance v2, Landroid/content/Intent;
    const-string v3, "android.media.action.IMAGE_CAPTURE"
    invoke-direct {v2, v3}, Landroid/content/Intent;-><init>(Ljava/lang/String;)V
    invoke-static {}, Lio/curbcore/page/Photo;->address()Landroid/net/Uri;
    move-result-object v3
    const-string v4, "output"
    invoke-virtual {v2, v4, v3}, Landroid/content/Intent;->putExtra(Ljava/lang/String;Landroid/os/Parcelable;)Landroid/content/Intent;
    const-string v4, ""
    invoke-static {v4, v3}, Landroid/content/ClipData;->newRawUri(Ljava/lang/CharSequence;Landroid/net/Uri;)Landroid/content/ClipData;
    move-result-object v3
    invoke-virtual {v2, v3}, Landroid/content/Intent;->setClipData(Landroid/content/ClipData;)V
    const/4 v3, 0x3
    invoke-virtual {v2, v3}, Landroid/content/Intent;->addFlags(I)Landroid/content/Intent;
    const/4 v3, 0x1
    new-array v3, v3, [Landroid/os/Parcelable;
    const/4 v4, 0x0
    aput-object v2, v3, v4
    const-string v4, "android.intent.extra.INITIAL_INTENTS"
    invoke-virtual {v1, v4, v3}, Landroid/content/Intent;->putExtra(Ljava/lang/String;[Landroid/os/Parcelable;)Landroid/content/Intent;
    :ask
    const/4 v2, 0x1
    :try_start
    invoke-virtual {p0, v1, v2}, Lio/curbcore/page/Shell;->startActivityForResult(Landroid/content/Intent;I)V
    :try_end
    .catch Landroid/content/ActivityNotFoundException; {:try_start .. :try_end} :nobody
    return-void
    :nobody
    move-exception v1
    invoke-virtual {p0, v0}, Lio/curbcore/page/Shell;->picked([Landroid/net/Uri;)V
    return-void
.end method

#     ValueCallback waits = picking;
#     picking = null;
#     if (waits != null) waits.onReceiveValue(addresses);
.method public picked([Landroid/net/Uri;)V
    .registers 4
    iget-object v0, p0, Lio/curbcore/page/Shell;->picking:Landroid/webkit/ValueCallback;
    const/4 v1, 0x0
    iput-object v1, p0, Lio/curbcore/page/Shell;->picking:Landroid/webkit/ValueCallback;
    if-eqz v0, :nobody
    invoke-interface {v0, p1}, Landroid/webkit/ValueCallback;->onReceiveValue(Ljava/lang/Object;)V
    :nobody
    return-void
.end method

#     if (asked == 1) {
#         Uri[] found = WebChromeClient.FileChooserParams.parseResult(result, data);
#         // A camera app tells nothing: its photo is there, or not.
#         if (result == RESULT_OK && (data == null || data.getData() == null) && Photo.file(this).length() > 0)
#             found = new Uri[] { Photo.address() };
#         picked(found);
#     } else {
#         saving = false;
#         Object[] file = outgoing.poll();
#         if (file != null && result == RESULT_OK && data != null && data.getData() != null)
#             write(data.getData(), file);
#         run();
#     }
.method protected onActivityResult(IILandroid/content/Intent;)V
    .registers 9
    const/4 v0, 0x1
    if-ne p1, v0, :saved
    invoke-static {p2, p3}, Landroid/webkit/WebChromeClient$FileChooserParams;->parseResult(ILandroid/content/Intent;)[Landroid/net/Uri;
    move-result-object v1
    const/4 v2, -0x1
    if-ne p2, v2, :tell
    if-eqz p3, :camera
    invoke-virtual {p3}, Landroid/content/Intent;->getData()Landroid/net/Uri;
    move-result-object v2
    if-nez v2, :tell
    :camera
    invoke-static {p0}, Lio/curbcore/page/Photo;->file(Landroid/content/Context;)Ljava/io/File;
    move-result-object v2
    invoke-virtual {v2}, Ljava/io/File;->length()J
    move-result-wide v2
    const-wide/16 v4, 0x0
    cmp-long v2, v2, v4
    if-lez v2, :tell
    new-array v1, v0, [Landroid/net/Uri;
    invoke-static {}, Lio/curbcore/page/Photo;->address()Landroid/net/Uri;
    move-result-object v2
    const/4 v3, 0x0
    aput-object v2, v1, v3
    :tell
    invoke-virtual {p0, v1}, Lio/curbcore/page/Shell;->picked([Landroid/net/Uri;)V
    return-void
    :saved
    const/4 v0, 0x0
    iput-boolean v0, p0, Lio/curbcore/page/Shell;->saving:Z
    iget-object v0, p0, Lio/curbcore/page/Shell;->outgoing:Ljava/util/concurrent/ConcurrentLinkedQueue;
    invoke-virtual {v0}, Ljava/util/concurrent/ConcurrentLinkedQueue;->poll()Ljava/lang/Object;
    move-result-object v0
    if-eqz v0, :next
    check-cast v0, [Ljava/lang/String;
    const/4 v1, -0x1
    if-ne p2, v1, :next
    if-eqz p3, :next
    invoke-virtual {p3}, Landroid/content/Intent;->getData()Landroid/net/Uri;
    move-result-object v1
    if-eqz v1, :next
    invoke-virtual {p0, v1, v0}, Lio/curbcore/page/Shell;->write(Landroid/net/Uri;[Ljava/lang/String;)V
    :next
    invoke-virtual {p0}, Lio/curbcore/page/Shell;->run()V
    return-void
.end method

#     try {
#         OutputStream out = getContentResolver().openOutputStream(place);
#         out.write(Base64.decode(file[2], 0));
#         out.close();
#     } catch (IOException error) {
#         Toast.makeText(this, error.toString(), LENGTH_LONG).show();
#     }
.method public write(Landroid/net/Uri;[Ljava/lang/String;)V
    .registers 7
    :try_start
    invoke-virtual {p0}, Lio/curbcore/page/Shell;->getContentResolver()Landroid/content/ContentResolver;
    move-result-object v0
    invoke-virtual {v0, p1}, Landroid/content/ContentResolver;->openOutputStream(Landroid/net/Uri;)Ljava/io/OutputStream;
    move-result-object v0
    const/4 v1, 0x2
    aget-object v1, p2, v1
    const/4 v2, 0x0
    invoke-static {v1, v2}, Landroid/util/Base64;->decode(Ljava/lang/String;I)[B
    move-result-object v1
    invoke-virtual {v0, v1}, Ljava/io/OutputStream;->write([B)V
    invoke-virtual {v0}, Ljava/io/OutputStream;->close()V
    :try_end
    .catch Ljava/io/IOException; {:try_start .. :try_end} :refused
    return-void
    :refused
    move-exception v0
    invoke-virtual {v0}, Ljava/io/IOException;->toString()Ljava/lang/String;
    move-result-object v0
    const/4 v1, 0x1
    invoke-static {p0, v0, v1}, Landroid/widget/Toast;->makeText(Landroid/content/Context;Ljava/lang/CharSequence;I)Landroid/widget/Toast;
    move-result-object v0
    invoke-virtual {v0}, Landroid/widget/Toast;->show()V
    return-void
.end method

#     outgoing.add(new String[] { name, kind, base64 });
#     runOnUiThread(this);
.method public save(Ljava/lang/String;Ljava/lang/String;Ljava/lang/String;)V
    .registers 7
    .annotation runtime Landroid/webkit/JavascriptInterface;
    .end annotation
    const/4 v0, 0x3
    new-array v0, v0, [Ljava/lang/String;
    const/4 v1, 0x0
    aput-object p1, v0, v1
    const/4 v1, 0x1
    aput-object p2, v0, v1
    const/4 v1, 0x2
    aput-object p3, v0, v1
    iget-object v1, p0, Lio/curbcore/page/Shell;->outgoing:Ljava/util/concurrent/ConcurrentLinkedQueue;
    invoke-virtual {v1, v0}, Ljava/util/concurrent/ConcurrentLinkedQueue;->add(Ljava/lang/Object;)Z
    invoke-virtual {p0, p0}, Lio/curbcore/page/Shell;->runOnUiThread(Ljava/lang/Runnable;)V
    return-void
.end method

#     this.awake = awake;
#     runOnUiThread(this);
.method public awake(Z)V
    .registers 2
    .annotation runtime Landroid/webkit/JavascriptInterface;
    .end annotation
    iput-boolean p1, p0, Lio/curbcore/page/Shell;->awake:Z
    invoke-virtual {p0, p0}, Lio/curbcore/page/Shell;->runOnUiThread(Ljava/lang/Runnable;)V
    return-void
.end method

#     shaking = true;
#     runOnUiThread(this);
.method public shake()V
    .registers 2
    .annotation runtime Landroid/webkit/JavascriptInterface;
    .end annotation
    const/4 v0, 0x1
    iput-boolean v0, p0, Lio/curbcore/page/Shell;->shaking:Z
    invoke-virtual {p0, p0}, Lio/curbcore/page/Shell;->runOnUiThread(Ljava/lang/Runnable;)V
    return-void
.end method

#     view.setKeepScreenOn(awake);
#     if (shaking) {
#         shaking = false;
#         view.performHapticFeedback(HapticFeedbackConstants.LONG_PRESS);
#     }
#     String[] file = outgoing.peek();
#     if (saving || file == null) return;
#     saving = true;
#     Intent dialog = new Intent("android.intent.action.CREATE_DOCUMENT");
#     dialog.addCategory("android.intent.category.OPENABLE");
#     dialog.setType(file[1]);
#     dialog.putExtra("android.intent.extra.TITLE", file[0]);
#     try { startActivityForResult(dialog, 2); }
#     catch (ActivityNotFoundException error) { saving = false; outgoing.clear(); }
.method public run()V
    .registers 6
    iget-object v0, p0, Lio/curbcore/page/Shell;->view:Landroid/webkit/WebView;
    iget-boolean v1, p0, Lio/curbcore/page/Shell;->awake:Z
    invoke-virtual {v0, v1}, Landroid/webkit/WebView;->setKeepScreenOn(Z)V
    const/4 v2, 0x0
    iget-boolean v1, p0, Lio/curbcore/page/Shell;->shaking:Z
    if-eqz v1, :files
    iput-boolean v2, p0, Lio/curbcore/page/Shell;->shaking:Z
    invoke-virtual {v0, v2}, Landroid/webkit/WebView;->performHapticFeedback(I)Z
    :files
    iget-object v0, p0, Lio/curbcore/page/Shell;->outgoing:Ljava/util/concurrent/ConcurrentLinkedQueue;
    invoke-virtual {v0}, Ljava/util/concurrent/ConcurrentLinkedQueue;->peek()Ljava/lang/Object;
    move-result-object v0
    if-eqz v0, :done
    check-cast v0, [Ljava/lang/String;
    iget-boolean v1, p0, Lio/curbcore/page/Shell;->saving:Z
    if-nez v1, :done
    const/4 v1, 0x1
    iput-boolean v1, p0, Lio/curbcore/page/Shell;->saving:Z
    new-instance v3, Landroid/content/Intent;
    const-string v4, "android.intent.action.CREATE_DOCUMENT"
    invoke-direct {v3, v4}, Landroid/content/Intent;-><init>(Ljava/lang/String;)V
    const-string v4, "android.intent.category.OPENABLE"
    invoke-virtual {v3, v4}, Landroid/content/Intent;->addCategory(Ljava/lang/String;)Landroid/content/Intent;
    aget-object v4, v0, v1
    invoke-virtual {v3, v4}, Landroid/content/Intent;->setType(Ljava/lang/String;)Landroid/content/Intent;
    aget-object v0, v0, v2
    const-string v4, "android.intent.extra.TITLE"
    invoke-virtual {v3, v4, v0}, Landroid/content/Intent;->putExtra(Ljava/lang/String;Ljava/lang/String;)Landroid/content/Intent;
    const/4 v1, 0x2
    :try_start
    invoke-virtual {p0, v3, v1}, Lio/curbcore/page/Shell;->startActivityForResult(Landroid/content/Intent;I)V
    :try_end
    .catch Landroid/content/ActivityNotFoundException; {:try_start .. :try_end} :nobody
    :done
    return-void
    :nobody
    move-exception v0
    iput-boolean v2, p0, Lio/curbcore/page/Shell;->saving:Z
    iget-object v0, p0, Lio/curbcore/page/Shell;->outgoing:Ljava/util/concurrent/ConcurrentLinkedQueue;
    invoke-virtual {v0}, Ljava/util/concurrent/ConcurrentLinkedQueue;->clear()V
    return-void
.end method
