#include "compiler/driver/http_host.hpp"

#include <fmt/format.h>
#include <microhttpd.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdarg>
#include <map>
#include <stdexcept>
#include <string>
#include <utility>

#include "backends/server/refusal.hpp"

namespace stave::driver {

namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;
using std::chrono::seconds;

// Many times what a slow network needs for a head of a few hundred bytes.
constexpr seconds request_time{10};
// A telephone at the edge of its network is faster than the pace.
constexpr seconds answer_time{20};
constexpr std::uint64_t least_bytes_a_second = 4096;
// What is not held in memory is read in pieces of so many bytes, each when the one before it has
// been taken.
constexpr std::size_t piece_size = 65536;
// In seconds: nothing has come, or could be sent, for as long.
constexpr unsigned silence = 15;
// Browsers send one or two thousand bytes; RFC 9112, section 3, wants 8000 for the first line.
constexpr std::size_t connection_memory = 16384;
constexpr unsigned most_connections = 512;
// Behind one address may be a whole house.
constexpr unsigned most_of_an_address = 256;

struct Connection {
    int socket = -1;
    Clock::time_point end;
    bool is_sending = false;
    // It has had its last words.
    bool is_refused = false;
};

MHD_Result add_field(void* fields, MHD_ValueKind /*kind*/, const char* name, std::size_t name_size,
                     const char* value, std::size_t value_size) {
    server::Field field{{name, name_size}, {}};
    if (value != nullptr) field.value.assign(value, value_size);
    static_cast<std::vector<server::Field>*>(fields)->push_back(std::move(field));
    return MHD_YES;
}

// The target stays as it came.
std::size_t unescape_nothing(void* /*closure*/, MHD_Connection* /*connection*/, char* text) {
    return std::char_traits<char>::length(text);
}

// When a client that takes so many bytes from now on at the least pace has them.
Clock::time_point end_of(std::uint64_t length) {
    return Clock::now() + answer_time +
           seconds(static_cast<std::int64_t>(length / least_bytes_a_second));
}

// What an answer sends, and to whom, who outlives it.
struct Sending {
    server::Body body;
    std::uint64_t first = 0;
    std::uint64_t length = 0;
    Connection* connection = nullptr;
};

void let_go(void* sending) {
    delete static_cast<Sending*>(sending);
}

ssize_t read_piece(void* closure, std::uint64_t at, char* room, std::size_t most) {
    const Sending& sending = *static_cast<Sending*>(closure);
    try {
        const std::size_t wanted = std::min<std::uint64_t>(most, sending.length - at);
        const std::size_t got = sending.body.read(sending.first + at, {room, wanted});
        if (got == 0) return MHD_CONTENT_READER_END_WITH_ERROR;
        sending.connection->end = end_of(got);
        return static_cast<ssize_t>(got);
    } catch (...) {
        return MHD_CONTENT_READER_END_WITH_ERROR;
    }
}

struct ResponseFree {
    void operator()(MHD_Response* response) const { MHD_destroy_response(response); }
};
using Response = std::unique_ptr<MHD_Response, ResponseFree>;

Response response_of(const server::Answer& answer, Connection& connection) {
    auto sending =
        std::make_unique<Sending>(Sending{answer.body, answer.first, answer.length, &connection});
    Response response;
    if (const auto& bytes = answer.body.bytes()) {
        const MHD_IoVec part{bytes->data() + answer.first, answer.length};
        response.reset(MHD_create_response_from_iovec(&part, 1, let_go, sending.get()));
    } else {
        response.reset(MHD_create_response_from_callback(answer.length, piece_size, read_piece,
                                                         sending.get(), let_go));
    }
    if (!response) throw std::bad_alloc();
    // The response owns it now.
    [[maybe_unused]] const Sending* owned = sending.release();
    for (const server::Field& field : answer.fields) {
        if (MHD_add_response_header(response.get(), field.name.c_str(), field.value.c_str()) !=
            MHD_YES)
            throw std::bad_alloc();
    }
    return response;
}

// The library's own strictness answers a request without Host twice; `server::answer` looks at
// it instead.
constexpr int no_strictness = 0;

void add_fields_of(MHD_Connection* handle, server::Request& request) {
    MHD_get_connection_values_n(handle, MHD_HEADER_KIND, add_field, &request.fields);
}

// All of a refusal behind which the connection ends, as RFC 9112, section 4, has it.
std::string last_words(const server::Answer& answer) {
    std::string text =
        fmt::format("HTTP/1.1 {} {}\r\n", answer.status, server::reason_of(answer.status));
    for (const server::Field& field : answer.fields)
        text += fmt::format("{}: {}\r\n", field.name, field.value);
    text += fmt::format("Content-Length: {}\r\nConnection: close\r\n\r\n", answer.length);
    return text.append(*answer.body.bytes(), answer.first, answer.length);
}

// RFC 9112, section 6: a body follows where one of these says so.
bool has_body(const server::Request& request) {
    return server::field_count(request, "Transfer-Encoding") > 0 ||
           server::field_value(request, "Content-Length").value_or("0") != "0";
}

}  // namespace

struct HttpHost::State {
    Admit admit;
    Respond respond;
    MHD_Daemon* daemon = nullptr;
    std::map<MHD_Connection*, Connection> connections;
    Clock::time_point next_look;

    MHD_Result answer(MHD_Connection* handle, server::Request request, bool is_begin) {
        add_fields_of(handle, request);
        const bool is_left_unread = has_body(request);
        // Without a body the library calls again once it has seen the end of the head.
        if (is_begin && !is_left_unread) return MHD_YES;
        const server::Answer answer = respond(request);
        Connection& connection = connections[handle];
        const Response response = response_of(answer, connection);
        if (is_left_unread) MHD_add_response_header(response.get(), "Connection", "close");
        connection.end = end_of(answer.body.bytes() ? answer.length : piece_size);
        connection.is_sending = true;
        return MHD_queue_response(handle, static_cast<unsigned>(answer.status), response.get());
    }

    // The library would answer a length that is none with two heads, one behind the other. So it
    // is answered here, and what the library sends leads nowhere.
    void refuse_bad_lengths() {
        for (auto& [handle, connection] : connections) {
            server::Request request{{}, {}, "HTTP/1.1", {}};
            add_fields_of(handle, request);
            if (connection.is_refused || server::has_sound_length(request)) continue;
            connection.is_refused = true;
            const std::string text = last_words(respond(request));
            // A few hundred bytes; who has no room for them is not waited for.
            [[maybe_unused]] const ssize_t sent =
                ::send(connection.socket, text.data(), text.size(), MSG_DONTWAIT | MSG_NOSIGNAL);
            ::shutdown(connection.socket, SHUT_WR);
        }
    }

    // Whoever is late loses the connection, which the library then clears away.
    void close_the_late() {
        const Clock::time_point now = Clock::now();
        if (now < next_look) return;
        next_look = now + seconds(1);
        for (auto& [handle, connection] : connections) {
            if (connection.end > now) continue;
            ::shutdown(connection.socket, SHUT_RDWR);
            connection.end = Clock::time_point::max();
        }
    }

    // The library complains, and says neither of whom nor why in a form that can be told apart.
    static void on_complaint(void* closure, const char* /*format*/, va_list /*values*/) {
        try {
            static_cast<State*>(closure)->refuse_bad_lengths();
        } catch (...) {
            // Want of memory; then the library's own answer is good enough.
            return;
        }
    }

    static MHD_Result on_client(void* closure, const sockaddr* address, socklen_t /*size*/) {
        try {
            return static_cast<State*>(closure)->admit(address) ? MHD_YES : MHD_NO;
        } catch (...) {
            return MHD_NO;
        }
    }

    // NOLINTNEXTLINE(readability-function-size): the library's own type of callback
    static MHD_Result on_request(void* closure, MHD_Connection* handle, const char* target,
                                 const char* method, const char* version, const char* /*body*/,
                                 // NOLINTNEXTLINE(readability-non-const-parameter): as above
                                 std::size_t* body_size, void** mark) {
        const bool is_begin = *mark == nullptr;
        *mark = closure;
        if (!is_begin && *body_size > 0) return MHD_NO;
        try {
            return static_cast<State*>(closure)->answer(handle, {method, target, version, {}},
                                                        is_begin);
        } catch (...) {
            // Want of memory costs this connection and no other.
            return MHD_NO;
        }
    }

    static void on_completed(void* closure, MHD_Connection* handle, void** /*mark*/,
                             MHD_RequestTerminationCode /*how*/) {
        auto& connections = static_cast<State*>(closure)->connections;
        const auto found = connections.find(handle);
        if (found == connections.end()) return;
        found->second.end = Clock::now() + request_time;
        found->second.is_sending = false;
    }

    static void on_connection(void* closure, MHD_Connection* handle, void** /*context*/,
                              MHD_ConnectionNotificationCode what) {
        auto& connections = static_cast<State*>(closure)->connections;
        if (what == MHD_CONNECTION_NOTIFY_CLOSED) {
            connections.erase(handle);
            return;
        }
        const MHD_ConnectionInfo* info =
            MHD_get_connection_info(handle, MHD_CONNECTION_INFO_CONNECTION_FD);
        connections[handle] = {info->connect_fd, Clock::now() + request_time};
    }
};

HttpHost::HttpHost(Descriptor listening, Admit admit, Respond respond)
    : state_(std::make_unique<State>()) {
    State& state = *state_;
    state.admit = std::move(admit);
    state.respond = std::move(respond);
    state.daemon = MHD_start_daemon(
        MHD_USE_EPOLL | MHD_USE_ERROR_LOG, 0, State::on_client, &state, State::on_request, &state,
        MHD_OPTION_EXTERNAL_LOGGER, State::on_complaint, &state, MHD_OPTION_LISTEN_SOCKET,
        listening.number(), MHD_OPTION_CONNECTION_MEMORY_LIMIT, connection_memory,
        MHD_OPTION_CONNECTION_LIMIT, most_connections, MHD_OPTION_PER_IP_CONNECTION_LIMIT,
        most_of_an_address, MHD_OPTION_CONNECTION_TIMEOUT, silence, MHD_OPTION_STRICT_FOR_CLIENT,
        no_strictness, MHD_OPTION_SIGPIPE_HANDLED_BY_APP, 1, MHD_OPTION_UNESCAPE_CALLBACK,
        unescape_nothing, nullptr, MHD_OPTION_NOTIFY_COMPLETED, State::on_completed, &state,
        MHD_OPTION_NOTIFY_CONNECTION, State::on_connection, &state, MHD_OPTION_END);
    if (state.daemon == nullptr) throw std::runtime_error("the web server does not start");
    // The library closes it.
    static_cast<void>(listening.release());
}

HttpHost::~HttpHost() {
    MHD_stop_daemon(state_->daemon);
}

void HttpHost::work(int wake, milliseconds longest) {
    MHD_Daemon* const daemon = state_->daemon;
    MHD_UNSIGNED_LONG_LONG soon = 0;
    if (MHD_get_timeout(daemon, &soon) == MHD_YES)
        longest = std::min(longest, milliseconds(static_cast<std::int64_t>(soon)));
    const MHD_DaemonInfo* info = MHD_get_daemon_info(daemon, MHD_DAEMON_INFO_EPOLL_FD);
    std::array<pollfd, 2> waited{{{info->epoll_fd, POLLIN, 0}, {wake, POLLIN, 0}}};
    ::poll(waited.data(), waited.size(), static_cast<int>(longest.count()));
    MHD_run(daemon);
    state_->close_the_late();
}

void HttpHost::stop_listening() {
    const Descriptor listening(MHD_quiesce_daemon(state_->daemon));
}

bool HttpHost::is_sending() const {
    return std::ranges::any_of(state_->connections,
                               [](const auto& one) { return one.second.is_sending; });
}

}  // namespace stave::driver
