#include "compiler/driver/serve.hpp"

#include <fmt/format.h>
#include <sys/signalfd.h>

#include <chrono>
#include <csignal>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "backends/codes/square_code.hpp"
#include "backends/codes/terminal.hpp"
#include "backends/server/answer.hpp"
#include "compiler/driver/http_host.hpp"
#include "compiler/driver/listener.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/networks.hpp"
#include "compiler/driver/run.hpp"
#include "compiler/driver/served_folder.hpp"

namespace stave::driver {

namespace {

// SIGINT and SIGTERM as something to be read, for as long as this lives.
class StopSignals {
public:
    StopSignals() {
        sigset_t signals{};
        ::sigemptyset(&signals);
        ::sigaddset(&signals, SIGINT);
        ::sigaddset(&signals, SIGTERM);
        ::sigprocmask(SIG_BLOCK, &signals, &before_);
        arrived_ = Descriptor(::signalfd(-1, &signals, SFD_NONBLOCK | SFD_CLOEXEC));
    }
    ~StopSignals() { ::sigprocmask(SIG_SETMASK, &before_, nullptr); }
    StopSignals(const StopSignals&) = delete;
    StopSignals& operator=(const StopSignals&) = delete;

    [[nodiscard]] int descriptor() const { return arrived_.number(); }
    // Whether one has come since the last time.
    [[nodiscard]] bool has_come() const {
        signalfd_siginfo which{};
        return ::read(arrived_.number(), &which, sizeof which) > 0;
    }

private:
    sigset_t before_{};
    Descriptor arrived_;
};

void say_addresses(const std::string& folder, std::uint16_t port,
                   const std::vector<std::string>& hosts, Environment& environment) {
    std::ostream& out = environment.out;
    const auto address = [&](const std::string& host) {
        return fmt::format("http://{}:{}/", host, port);
    };
    if (hosts.empty()) {
        out << fmt::format("{} is served at {}\n", folder, address("127.0.0.1"));
        out << "Only this computer reaches it; --lan serves its network. Ctrl-C stops it.\n";
    } else {
        out << fmt::format("{} is served at {}\n", folder, address(hosts.front()));
        for (std::size_t i = 1; i < hosts.size(); ++i)
            out << fmt::format("and at {}\n", address(hosts[i]));
        if (environment.shows_codes) {
            if (const auto code = codes::square_code(address(hosts.front())))
                out << codes::terminal_lines(*code);
        }
        out << "Everybody in the same network can read it. Ctrl-C stops it.\n";
    }
    out.flush();
}

// Until a signal comes, and then until what is on its way has arrived, or another signal comes.
void work_until_stopped(HttpHost& host, const StopSignals& signals) {
    using std::chrono::steady_clock;
    constexpr std::chrono::seconds turn{1};
    constexpr std::chrono::seconds patience{5};
    while (!signals.has_come())
        host.work(signals.descriptor(), turn);
    host.stop_listening();
    const auto end = steady_clock::now() + patience;
    constexpr std::chrono::milliseconds short_turn{50};
    while (host.is_sending() && steady_clock::now() < end && !signals.has_come())
        host.work(signals.descriptor(), short_turn);
}

// A log that nobody reads must not stop the server.
void log(const server::Request& request, const server::Answer& answer, Environment& environment) {
    if (!environment.out_is_ready()) return;
    environment.out << server::log_line(request, answer) << '\n' << std::flush;
}

// What keeps the folder from being served, if anything.
std::optional<Diagnostic> serve_folder(const Options& options, Environment& environment) {
    ServedFolder folder(options.folder);
    if (auto fault = folder.find_fault()) return fault;
    std::vector<std::string> hosts;
    if (options.lan) {
        hosts = network_addresses();
        if (hosts.empty()) return Diagnostic{Code::no_network, {}, {}, {}, {}};
    }
    auto listener = listen_at(options.port, options.lan);
    if (!listener) return std::move(listener.error());
    // From here on a signal is no sudden end.
    const StopSignals signals;
    const auto respond = [&](const server::Request& request) {
        server::Answer answer = server::answer(
            request, [&](const std::string& path) { return folder.find(path); }, environment.now());
        log(request, answer, environment);
        return answer;
    };
    HttpHost host(std::move(listener->socket), is_in_network, respond);
    say_addresses(options.folder, listener->port, hosts, environment);
    work_until_stopped(host, signals);
    return std::nullopt;
}

}  // namespace

int serve(const Options& options, Environment& environment) {
    auto failed = serve_folder(options, environment);
    if (!failed) return exit_done;
    Loaded nothing;
    nothing.file_problems.push_back(std::move(*failed));
    say_problems(nothing, options.diagnostics, environment);
    return nothing.exit_code();
}

}  // namespace stave::driver
