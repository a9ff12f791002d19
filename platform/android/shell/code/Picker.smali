# A file input of the page was tapped: the shell asks the phone.
.class public Lio/curbcore/page/Picker;
.super Landroid/webkit/WebChromeClient;

.field private final shell:Lio/curbcore/page/Shell;

.method public constructor <init>(Lio/curbcore/page/Shell;)V
    .registers 2
    invoke-direct {p0}, Landroid/webkit/WebChromeClient;-><init>()V
    iput-object p1, p0, Lio/curbcore/page/Picker;->shell:Lio/curbcore/page/Shell;
    return-void
.end method

.method public onShowFileChooser(Landroid/webkit/WebView;Landroid/webkit/ValueCallback;Landroid/webkit/WebChromeClient$FileChooserParams;)Z
    .registers 5
    iget-object v0, p0, Lio/curbcore/page/Picker;->shell:Lio/curbcore/page/Shell;
    invoke-virtual {v0, p2, p3}, Lio/curbcore/page/Shell;->pick(Landroid/webkit/ValueCallback;Landroid/webkit/WebChromeClient$FileChooserParams;)V
    const/4 v0, 0x1
    return v0
.end method
