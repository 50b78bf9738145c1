// To be loaded before the C library: kills the process at the call number KILL_AT, counted from 1,
// of those that change the disk. Of a write half is done then, of all others nothing. With NO_LOCKS
// no folder can be locked, as on some file systems (ENOLCK: flock(2)).
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <sys/file.h>
#include <sys/types.h>
#include <unistd.h>

static int is_time(void) {
    static atomic_long calls;
    const char *const wanted = getenv("KILL_AT");
    return wanted != NULL && atomic_fetch_add(&calls, 1) + 1 == atol(wanted);
}

static void end(void) {
    kill(getpid(), SIGKILL);
}

ssize_t write(int descriptor, const void *bytes, size_t count) {
    ssize_t (*const real)(int, const void *, size_t) = dlsym(RTLD_NEXT, "write");
    if (descriptor > STDERR_FILENO && is_time()) {
        const ssize_t half = real(descriptor, bytes, count / 2);
        end();
        return half;
    }
    return real(descriptor, bytes, count);
}

int fsync(int descriptor) {
    int (*const real)(int) = dlsym(RTLD_NEXT, "fsync");
    if (is_time()) end();
    return real(descriptor);
}

int rename(const char *from, const char *to) {
    int (*const real)(const char *, const char *) = dlsym(RTLD_NEXT, "rename");
    if (is_time()) end();
    return real(from, to);
}

int unlink(const char *path) {
    int (*const real)(const char *) = dlsym(RTLD_NEXT, "unlink");
    if (is_time()) end();
    return real(path);
}

int remove(const char *path) {
    int (*const real)(const char *) = dlsym(RTLD_NEXT, "remove");
    if (is_time()) end();
    return real(path);
}

int mkdir(const char *path, mode_t rights) {
    int (*const real)(const char *, mode_t) = dlsym(RTLD_NEXT, "mkdir");
    if (is_time()) end();
    return real(path, rights);
}

int flock(int descriptor, int operation) {
    int (*const real)(int, int) = dlsym(RTLD_NEXT, "flock");
    if (getenv("NO_LOCKS") == NULL) return real(descriptor, operation);
    errno = ENOLCK;
    return -1;
}
