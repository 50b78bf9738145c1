// HTTP/1.1 on a listening socket, by libmicrohttpd, which http_host.cpp alone sees.
//
// One thread for all connections, and nobody can hold up the others: a request has to be whole
// within seconds of its connection's start or of the answer before it, its head has to be small,
// nothing behind its head is read, an answer has to be taken at a least pace, and there are at
// most so many connections, of all and of each address.
#pragma once

#include <sys/socket.h>

#include <chrono>
#include <functional>
#include <memory>

#include "backends/server/answer.hpp"
#include "compiler/driver/descriptor.hpp"

namespace stave::driver {

class HttpHost {
public:
    // Whether a client with this address is served; others lose their connection at once.
    using Admit = std::function<bool(const sockaddr*)>;
    using Respond = std::function<server::Answer(const server::Request&)>;

    // Throws where the library does not start: want of memory or of descriptors.
    HttpHost(Descriptor listening, Admit admit, Respond respond);
    ~HttpHost();
    HttpHost(const HttpHost&) = delete;
    HttpHost& operator=(const HttpHost&) = delete;

    // Waits until a connection has something to do, `wake` can be read or the time is over, and
    // does what there is.
    void work(int wake, std::chrono::milliseconds longest);

    // New connections are refused from now on.
    void stop_listening();

    // Answers that are on their way.
    [[nodiscard]] bool is_sending() const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace stave::driver
