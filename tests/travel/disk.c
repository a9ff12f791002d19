/* A disk that fails: loaded before the C library into a program under test. After DISK_BYTES bytes
   written to regular files, every write finds the disk full; from the DISK_SYNCS-th sync on, every
   sync fails. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

static long left(const char *name, long *kept) {
    if (*kept == -2) {
        const char *text = getenv(name);
        *kept = text ? atol(text) : -1;
    }
    return *kept;
}

static long bytes_left = -2, syncs_left = -2;

static int is_file(int fd) {
    struct stat about;
    return fd > 2 && fstat(fd, &about) == 0 && S_ISREG(about.st_mode);
}

static int is_full(int fd, size_t count) {
    if (left("DISK_BYTES", &bytes_left) < 0 || !is_file(fd)) return 0;
    if (bytes_left < (long)count) { bytes_left = 0; errno = ENOSPC; return 1; }
    bytes_left -= (long)count;
    return 0;
}

static int sync_fails(int fd) {
    if (left("DISK_SYNCS", &syncs_left) < 0 || !is_file(fd)) return 0;
    if (syncs_left == 0) { errno = EIO; return 1; }
    syncs_left--;
    return 0;
}

ssize_t write(int fd, const void *from, size_t count) {
    static ssize_t (*real)(int, const void *, size_t);
    if (!real) real = (ssize_t (*)(int, const void *, size_t))dlsym(RTLD_NEXT, "write");
    return is_full(fd, count) ? -1 : real(fd, from, count);
}

ssize_t pwrite(int fd, const void *from, size_t count, off_t at) {
    static ssize_t (*real)(int, const void *, size_t, off_t);
    if (!real) real = (ssize_t (*)(int, const void *, size_t, off_t))dlsym(RTLD_NEXT, "pwrite");
    return is_full(fd, count) ? -1 : real(fd, from, count, at);
}

ssize_t pwrite64(int fd, const void *from, size_t count, off64_t at) {
    static ssize_t (*real)(int, const void *, size_t, off64_t);
    if (!real) real = (ssize_t (*)(int, const void *, size_t, off64_t))dlsym(RTLD_NEXT, "pwrite64");
    return is_full(fd, count) ? -1 : real(fd, from, count, at);
}

int fsync(int fd) {
    static int (*real)(int);
    if (!real) real = (int (*)(int))dlsym(RTLD_NEXT, "fsync");
    return sync_fails(fd) ? -1 : real(fd);
}

int fdatasync(int fd) {
    static int (*real)(int);
    if (!real) real = (int (*)(int))dlsym(RTLD_NEXT, "fdatasync");
    return sync_fails(fd) ? -1 : real(fd);
}
