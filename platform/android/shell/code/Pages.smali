# Hands the page's files out of the package, under an address of the package's own; there is nothing
# else to be had. In Java:
#
#     WebResourceResponse shouldInterceptRequest(WebView view, WebResourceRequest request) {
#         String path = request.getUrl().getPath();
#         if (path == null || path.equals("/")) path = "/index.html";
#         try {
#             if (!"curbcore.localhost".equals(request.getUrl().getHost())) throw new IOException();
#             InputStream file = assets.open("page".concat(path));
#             return new WebResourceResponse(kind(path), "utf-8", file);
#         } catch (IOException error) {
#             return new WebResourceResponse("text/plain", "utf-8", 404, "Not here", null, empty);
#         }
#     }
.class public Lio/curbcore/page/Pages;
.super Landroid/webkit/WebViewClient;

.field private final assets:Landroid/content/res/AssetManager;

.method public constructor <init>(Landroid/content/res/AssetManager;)V
    .registers 2
    invoke-direct {p0}, Landroid/webkit/WebViewClient;-><init>()V
    iput-object p1, p0, Lio/curbcore/page/Pages;->assets:Landroid/content/res/AssetManager;
    return-void
.end method

.method public shouldInterceptRequest(Landroid/webkit/WebView;Landroid/webkit/WebResourceRequest;)Landroid/webkit/WebResourceResponse;
    .registers 12
    invoke-interface {p2}, Landroid/webkit/WebResourceRequest;->getUrl()Landroid/net/Uri;
    move-result-object v0
    invoke-virtual {v0}, Landroid/net/Uri;->getPath()Ljava/lang/String;
    move-result-object v1
    if-eqz v1, :front
    const-string v2, "/"
    invoke-virtual {v2, v1}, Ljava/lang/String;->equals(Ljava/lang/Object;)Z
    move-result v3
    if-eqz v3, :named
    :front
    const-string v1, "/index.html"
    :named
    :try_start
    const-string v2, "curbcore.localhost"
    invoke-virtual {v0}, Landroid/net/Uri;->getHost()Ljava/lang/String;
    move-result-object v3
    invoke-virtual {v2, v3}, Ljava/lang/String;->equals(Ljava/lang/Object;)Z
    move-result v3
    if-eqz v3, :missing
    const-string v2, "page"
    invoke-virtual {v2, v1}, Ljava/lang/String;->concat(Ljava/lang/String;)Ljava/lang/String;
    move-result-object v2
    iget-object v3, p0, Lio/curbcore/page/Pages;->assets:Landroid/content/res/AssetManager;
    invoke-virtual {v3, v2}, Landroid/content/res/AssetManager;->open(Ljava/lang/String;)Ljava/io/InputStream;
    move-result-object v3
    invoke-static {v1}, Lio/curbcore/page/Pages;->kind(Ljava/lang/String;)Ljava/lang/String;
    move-result-object v1
    const-string v2, "utf-8"
    new-instance v0, Landroid/webkit/WebResourceResponse;
    invoke-direct {v0, v1, v2, v3}, Landroid/webkit/WebResourceResponse;-><init>(Ljava/lang/String;Ljava/lang/String;Ljava/io/InputStream;)V
    :try_end
    .catch Ljava/io/IOException; {:try_start .. :try_end} :gone
    return-object v0
    :gone
    move-exception v0
    :missing
    new-instance v0, Landroid/webkit/WebResourceResponse;
    const-string v1, "text/plain"
    const-string v2, "utf-8"
    const/16 v3, 0x194
    const-string v4, "Not here"
    const/4 v5, 0x0
    new-instance v6, Ljava/io/ByteArrayInputStream;
    const/4 v7, 0x0
    new-array v7, v7, [B
    invoke-direct {v6, v7}, Ljava/io/ByteArrayInputStream;-><init>([B)V
    invoke-direct/range {v0 .. v6}, Landroid/webkit/WebResourceResponse;-><init>(Ljava/lang/String;Ljava/lang/String;ILjava/lang/String;Ljava/util/Map;Ljava/io/InputStream;)V
    return-object v0
.end method

# What a file is, by the end of its name: endings and kinds in turn. A web view refuses a module or a
# program of another kind.
.method public static kind(Ljava/lang/String;)Ljava/lang/String;
    .registers 5
    const-string v0, ".html text/html .js text/javascript .css text/css .wasm application/wasm .svg image/svg+xml .png image/png .webmanifest application/manifest+json"
    const-string v1, " "
    invoke-virtual {v0, v1}, Ljava/lang/String;->split(Ljava/lang/String;)[Ljava/lang/String;
    move-result-object v0
    const/4 v1, 0x0
    :next
    array-length v2, v0
    if-ge v1, v2, :unknown
    aget-object v2, v0, v1
    invoke-virtual {p0, v2}, Ljava/lang/String;->endsWith(Ljava/lang/String;)Z
    move-result v2
    add-int/lit8 v1, v1, 0x1
    if-eqz v2, :other
    aget-object v0, v0, v1
    return-object v0
    :other
    add-int/lit8 v1, v1, 0x1
    goto :next
    :unknown
    const-string v0, "application/octet-stream"
    return-object v0
.end method
