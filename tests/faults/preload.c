/* Stands between the program and the system's calls (LD_PRELOAD): a network file system without locks, a clock that is set
 * while the program runs, a disk that fails.
 *
 * PRELOAD_FAULTS names a control file, which is read again at every call, so that a test changes the faults of a running
 * program by putting another file in its place (rename, so that no half of it is read). Its lines:
 *
 *   under FOLDER       the faults of files hold for files below this folder only
 *   locks none         record locks are granted and not kept
 *   locks refused      record locks answer ENOLCK
 *   shm refused        the index of a write-ahead log cannot be mapped
 *   mounts FILE        what is read in place of the table of mounts
 *   clock +N, -N, =N   the wall clock: so many seconds off, or standing at an instant (seconds since 1970)
 *   write full, broken, slow
 *                      writing fails with ENOSPC, or with EIO; slow: a sync takes 0.2 s
 *
 * Direct system calls are used throughout, so that none of these functions meets itself. 64-bit Linux only. */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <sys/vfs.h>
#include <time.h>
#include <unistd.h>

struct faults {
	char under[1024], locks[16], shm[16], mounts[1024], clock[32], write[16];
};

static void word(char *to, size_t size, const char *from)
{
	size_t n = 0;
	while (from[n] && from[n] != '\n' && n + 1 < size) {
		to[n] = from[n];
		n++;
	}
	to[n] = 0;
}

/* What the control file says now; all empty where there is none. */
static void look(struct faults *f)
{
	static const struct { const char *name; size_t at, size; } lines[] = {
		{ "under ", offsetof(struct faults, under), sizeof f->under },
		{ "locks ", offsetof(struct faults, locks), sizeof f->locks },
		{ "shm ", offsetof(struct faults, shm), sizeof f->shm },
		{ "mounts ", offsetof(struct faults, mounts), sizeof f->mounts },
		{ "clock ", offsetof(struct faults, clock), sizeof f->clock },
		{ "write ", offsetof(struct faults, write), sizeof f->write },
	};
	char text[4096];
	int before = errno;
	memset(f, 0, sizeof *f);
	const char *path = getenv("PRELOAD_FAULTS");
	if (!path)
		return;
	long fd = syscall(SYS_openat, AT_FDCWD, path, O_RDONLY | O_CLOEXEC, 0);
	long n = fd < 0 ? 0 : syscall(SYS_read, fd, text, sizeof text - 1);
	if (fd >= 0)
		syscall(SYS_close, fd);
	text[n > 0 ? n : 0] = 0;
	for (const char *line = text; line && *line; line = strchr(line, '\n'), line += line ? 1 : 0)
		for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
			if (!strncmp(line, lines[i].name, strlen(lines[i].name)))
				word((char *)f + lines[i].at, lines[i].size, line + strlen(lines[i].name));
	errno = before;
}

static int below(const struct faults *f, const char *path)
{
	size_t n = strlen(f->under);
	return n && !strncmp(path, f->under, n) && path[n] == '/';
}

/* The path of an open file, where it is an ordinary one below the folder. */
static int is_under(const struct faults *f, int fd, char *path, size_t size)
{
	char name[32] = "/proc/self/fd/", digits[12];
	int before = errno, n = 0, at = (int)strlen(name);
	if (!f->under[0] || fd < 0)
		return 0;
	do
		digits[n++] = (char)('0' + fd % 10);
	while ((fd /= 10));
	while (n)
		name[at++] = digits[--n];
	name[at] = 0;
	long length = syscall(SYS_readlinkat, AT_FDCWD, name, path, size - 1);
	errno = before;
	if (length < 0)
		return 0;
	path[length] = 0;
	return below(f, path);
}

/* --- locks --- */

static int fcntl_(int fd, int command, void *argument)
{
	struct faults f;
	char path[1024];
	switch (command) {
	case F_GETLK: case F_SETLK: case F_SETLKW: case F_OFD_GETLK: case F_OFD_SETLK: case F_OFD_SETLKW:
		look(&f);
		if (!f.locks[0] || !is_under(&f, fd, path, sizeof path))
			break;
		if (!strcmp(f.locks, "refused")) {
			errno = ENOLCK;
			return -1;
		}
		if (command == F_GETLK || command == F_OFD_GETLK)
			((struct flock *)argument)->l_type = F_UNLCK;
		return 0;
	default:
		break;
	}
	return (int)syscall(SYS_fcntl, fd, command, argument);
}

int fcntl(int fd, int command, ...)
{
	va_list list;
	va_start(list, command);
	void *argument = va_arg(list, void *);
	va_end(list);
	return fcntl_(fd, command, argument);
}

int fcntl64(int fd, int command, ...)
{
	va_list list;
	va_start(list, command);
	void *argument = va_arg(list, void *);
	va_end(list);
	return fcntl_(fd, command, argument);
}

int flock(int fd, int operation)
{
	struct faults f;
	char path[1024];
	look(&f);
	if (f.locks[0] && is_under(&f, fd, path, sizeof path)) {
		if (!strcmp(f.locks, "none"))
			return 0;
		errno = ENOLCK;
		return -1;
	}
	return (int)syscall(SYS_flock, fd, operation);
}

static void *mmap_(void *at, size_t length, int protection, int flags, int fd, off_t offset)
{
	struct faults f;
	char path[1024];
	if (fd >= 0) {
		look(&f);
		if (f.shm[0] && is_under(&f, fd, path, sizeof path) && strlen(path) > 4 && !strcmp(path + strlen(path) - 4, "-shm")) {
			errno = ENODEV;
			return MAP_FAILED;
		}
	}
	return (void *)syscall(SYS_mmap, at, length, protection, flags, fd, offset);
}

void *mmap(void *at, size_t length, int protection, int flags, int fd, off_t offset)
{
	return mmap_(at, length, protection, flags, fd, offset);
}

void *mmap64(void *at, size_t length, int protection, int flags, int fd, off_t offset)
{
	return mmap_(at, length, protection, flags, fd, offset);
}

/* --- what kind of file system it is --- */

static int open_(int folder, const char *path, int flags, unsigned mode)
{
	struct faults f;
	if (!strcmp(path, "/proc/self/mounts") || !strcmp(path, "/proc/mounts")) {
		look(&f);
		if (f.mounts[0])
			path = f.mounts;
	}
	return (int)syscall(SYS_openat, folder, path, flags, mode);
}

#define OPEN(name) \
	int name(const char *path, int flags, ...) \
	{ \
		va_list list; \
		va_start(list, flags); \
		unsigned mode = va_arg(list, unsigned); \
		va_end(list); \
		return open_(AT_FDCWD, path, flags, mode); \
	}
#define OPENAT(name) \
	int name(int folder, const char *path, int flags, ...) \
	{ \
		va_list list; \
		va_start(list, flags); \
		unsigned mode = va_arg(list, unsigned); \
		va_end(list); \
		return open_(folder, path, flags, mode); \
	}
OPEN(open)
OPEN(open64)
OPENAT(openat)
OPENAT(openat64)

#define NFS 0x6969

static int statfs_(const char *path, void *about)
{
	struct faults f;
	look(&f);
	int done = (int)syscall(SYS_statfs, path, about);
	if (!done && f.mounts[0] && below(&f, path))
		((struct statfs *)about)->f_type = NFS;
	return done;
}

static int fstatfs_(int fd, void *about)
{
	struct faults f;
	char path[1024];
	look(&f);
	int done = (int)syscall(SYS_fstatfs, fd, about);
	if (!done && f.mounts[0] && is_under(&f, fd, path, sizeof path))
		((struct statfs *)about)->f_type = NFS;
	return done;
}

int statfs(const char *path, struct statfs *about) { return statfs_(path, about); }
int statfs64(const char *path, struct statfs64 *about) { return statfs_(path, about); }
int fstatfs(int fd, struct statfs *about) { return fstatfs_(fd, about); }
int fstatfs64(int fd, struct statfs64 *about) { return fstatfs_(fd, about); }

/* --- the clock --- */

int clock_gettime(clockid_t clock, struct timespec *now)
{
	struct faults f;
	int done = (int)syscall(SYS_clock_gettime, clock, now);
	if (done || (clock != CLOCK_REALTIME && clock != CLOCK_REALTIME_COARSE))
		return done;
	look(&f);
	if (f.clock[0] == '=')
		now->tv_sec = (time_t)strtoll(f.clock + 1, 0, 10);
	else if (f.clock[0])
		now->tv_sec += (time_t)strtoll(f.clock, 0, 10);
	return 0;
}

int gettimeofday(struct timeval *now, void *zone)
{
	struct timespec t;
	(void)zone;
	if (clock_gettime(CLOCK_REALTIME, &t))
		return -1;
	now->tv_sec = t.tv_sec;
	now->tv_usec = t.tv_nsec / 1000;
	return 0;
}

time_t time(time_t *to)
{
	struct timespec t;
	if (clock_gettime(CLOCK_REALTIME, &t))
		return (time_t)-1;
	if (to)
		*to = t.tv_sec;
	return t.tv_sec;
}

/* --- the disk --- */

/* True, with errno set, where writing to this file fails now. */
static int fails(int fd)
{
	struct faults f;
	char path[1024];
	look(&f);
	if (!f.write[0] || !strcmp(f.write, "slow") || !is_under(&f, fd, path, sizeof path))
		return 0;
	errno = !strcmp(f.write, "full") ? ENOSPC : EIO;
	return 1;
}

ssize_t write(int fd, const void *from, size_t n)
{
	return fails(fd) ? -1 : syscall(SYS_write, fd, from, n);
}

ssize_t pwrite(int fd, const void *from, size_t n, off_t at)
{
	return fails(fd) ? -1 : syscall(SYS_pwrite64, fd, from, n, at);
}

ssize_t pwrite64(int fd, const void *from, size_t n, off_t at)
{
	return fails(fd) ? -1 : syscall(SYS_pwrite64, fd, from, n, at);
}

static int sync_(int fd, long call)
{
	struct faults f;
	char path[1024];
	look(&f);
	if (is_under(&f, fd, path, sizeof path)) {
		if (!strcmp(f.write, "broken")) {
			errno = EIO;
			return -1;
		}
		if (!strcmp(f.write, "slow")) {
			struct timespec pause = { 0, 200000000 };
			syscall(SYS_nanosleep, &pause, 0);
		}
	}
	return (int)syscall(call, fd);
}

int fsync(int fd) { return sync_(fd, SYS_fsync); }
int fdatasync(int fd) { return sync_(fd, SYS_fdatasync); }
