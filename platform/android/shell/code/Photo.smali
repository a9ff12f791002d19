# One file, photo.jpg in the app's cache: the camera app writes its photo into it, the web view reads
# it. Its address is content://io.curbcore.page.photo/photo.jpg. In Java:
#
#     ParcelFileDescriptor openFile(Uri address, String mode) {
#         return ParcelFileDescriptor.open(file(getContext()), ParcelFileDescriptor.parseMode(mode));
#     }
.class public Lio/curbcore/page/Photo;
.super Landroid/content/ContentProvider;

.method public constructor <init>()V
    .registers 1
    invoke-direct {p0}, Landroid/content/ContentProvider;-><init>()V
    return-void
.end method

.method public static file(Landroid/content/Context;)Ljava/io/File;
    .registers 4
    new-instance v0, Ljava/io/File;
    invoke-virtual {p0}, Landroid/content/Context;->getCacheDir()Ljava/io/File;
    move-result-object v1
    const-string v2, "photo.jpg"
    invoke-direct {v0, v1, v2}, Ljava/io/File;-><init>(Ljava/io/File;Ljava/lang/String;)V
    return-object v0
.end method

.method public static address()Landroid/net/Uri;
    .registers 1
    const-string v0, "content://io.curbcore.page.photo/photo.jpg"
    invoke-static {v0}, Landroid/net/Uri;->parse(Ljava/lang/String;)Landroid/net/Uri;
    move-result-object v0
    return-object v0
.end method

.method public onCreate()Z
    .registers 2
    const/4 v0, 0x1
    return v0
.end method

.method public openFile(Landroid/net/Uri;Ljava/lang/String;)Landroid/os/ParcelFileDescriptor;
    .registers 5
    .annotation system Ldalvik/annotation/Throws;
        value = { Ljava/io/FileNotFoundException; }
    .end annotation
    invoke-virtual {p0}, Lio/curbcore/page/Photo;->getContext()Landroid/content/Context;
    move-result-object v0
    invoke-static {v0}, Lio/curbcore/page/Photo;->file(Landroid/content/Context;)Ljava/io/File;
    move-result-object v0
    invoke-static {p2}, Landroid/os/ParcelFileDescriptor;->parseMode(Ljava/lang/String;)I
    move-result v1
    invoke-static {v0, v1}, Landroid/os/ParcelFileDescriptor;->open(Ljava/io/File;I)Landroid/os/ParcelFileDescriptor;
    move-result-object v0
    return-object v0
.end method

.method public getType(Landroid/net/Uri;)Ljava/lang/String;
    .registers 3
    const-string v0, "image/jpeg"
    return-object v0
.end method

.method public query(Landroid/net/Uri;[Ljava/lang/String;Ljava/lang/String;[Ljava/lang/String;Ljava/lang/String;)Landroid/database/Cursor;
    .registers 7
    const/4 v0, 0x0
    return-object v0
.end method

.method public insert(Landroid/net/Uri;Landroid/content/ContentValues;)Landroid/net/Uri;
    .registers 4
    const/4 v0, 0x0
    return-object v0
.end method

.method public delete(Landroid/net/Uri;Ljava/lang/String;[Ljava/lang/String;)I
    .registers 5
    const/4 v0, 0x0
    return v0
.end method

.method public update(Landroid/net/Uri;Landroid/content/ContentValues;Ljava/lang/String;[Ljava/lang/String;)I
    .registers 6
    const/4 v0, 0x0
    return v0
.end method
