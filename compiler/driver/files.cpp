#include "compiler/driver/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <system_error>

#include "compiler/source/source_file.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

Diagnostic file_problem(Code code, const std::string& path, std::string detail = {}) {
    return {code, {}, {path, std::move(detail)}, {}, {}};
}

std::string reason(int number) {
    return std::generic_category().message(number);
}

// Closes on every way out; the descriptor may be closed before, to see its error.
class Descriptor {
public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    [[nodiscard]] int number() const { return number_; }
    [[nodiscard]] bool close() {
        const int closed = ::close(number_);
        number_ = -1;
        return closed == 0;
    }

private:
    int number_;
};

bool write_all(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

// The error number, or 0.
int write_beside(const std::string& temporary, std::string_view bytes) {
    constexpr mode_t readable_by_all = 0644;
    Descriptor file(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,  // NOLINT
                           readable_by_all));
    if (file.number() < 0) return errno;
    if (!write_all(file.number(), bytes)) return errno;
    if (::fsync(file.number()) != 0) return errno;
    return file.close() ? 0 : errno;
}

}  // namespace

std::expected<std::string, Diagnostic> read_stream(std::istream& in, const std::string& shown) {
    constexpr std::size_t chunk_size = 65536;
    std::string text;
    std::array<char, chunk_size> chunk{};
    while (in.read(chunk.data(), chunk.size()) || in.gcount() > 0) {
        text.append(chunk.data(), static_cast<std::size_t>(in.gcount()));
        if (text.size() > SourceFile::largest) {
            return std::unexpected(file_problem(Code::file_too_large, shown,
                                                std::to_string(SourceFile::largest / 1024 / 1024)));
        }
    }
    if (in.bad()) return std::unexpected(file_problem(Code::cannot_read, shown, reason(EIO)));
    return text;
}

std::expected<std::string, Diagnostic> read_file(const std::string& path) {
    std::error_code problem;
    if (fs::is_directory(path, problem)) {
        return std::unexpected(file_problem(Code::is_folder, path));
    }
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        const int number = errno != 0 ? errno : EIO;
        return std::unexpected(file_problem(Code::cannot_read, path, reason(number)));
    }
    return read_stream(in, path);
}

std::expected<std::optional<std::string>, Diagnostic> read_if_there(const std::string& path) {
    std::error_code problem;
    if (!fs::exists(path, problem) && !problem) return std::nullopt;
    return read_file(path);
}

std::optional<Diagnostic> make_folder(const std::string& path) {
    std::error_code problem;
    fs::create_directories(path, problem);
    if (problem) return file_problem(Code::cannot_write, path, problem.message());
    return std::nullopt;
}

std::optional<Diagnostic> write_file(const std::string& path, std::string_view bytes) {
    const std::string temporary = fmt::format("{}.{}.part", path, ::getpid());
    int number = write_beside(temporary, bytes);
    if (number == 0 && ::rename(temporary.c_str(), path.c_str()) != 0) number = errno;
    if (number == 0) return std::nullopt;
    ::unlink(temporary.c_str());
    return file_problem(Code::cannot_write, path, reason(number));
}

}  // namespace stave::driver
