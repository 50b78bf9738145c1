#include "compiler/floor/colouring.hpp"

#include <algorithm>

namespace stave::floors {

namespace {

// A visit of a team: it joins the team's node with that of a place.
struct Edge {
    std::size_t team = 0;
    std::size_t place = 0;
    std::uint32_t visit = 0;
};

// Colours the edges of a bipartite multigraph one by one. An edge whose ends have no free colour
// in common gets the team's one, after the path that leaves its place in that colour and the
// place's own free one by turns has had the two exchanged. The path cannot end at the team: it
// would come there by a colour that is free there. So as many colours as the largest degree
// are enough.
class Colouring {
public:
    Colouring(std::size_t nodes, std::size_t colours, const std::vector<Edge>& edges)
        : edges_(edges), at_(nodes, std::vector<std::size_t>(colours, none)) {}

    void add(std::size_t edge) {
        const std::size_t of_team = free_colour(edges_[edge].team);
        const std::size_t of_place = free_colour(edges_[edge].place);
        if (of_team != of_place) exchange(edges_[edge].place, of_team, of_place);
        at_[edges_[edge].team][of_team] = edge;
        at_[edges_[edge].place][of_team] = edge;
    }

    // The edge of the node in this colour, or `none`.
    [[nodiscard]] std::size_t at(std::size_t node, std::size_t colour) const {
        return at_[node][colour];
    }

    static constexpr std::size_t none = static_cast<std::size_t>(-1);

private:
    [[nodiscard]] std::size_t free_colour(std::size_t node) const {
        return static_cast<std::size_t>(std::ranges::find(at_[node], none) - at_[node].begin());
    }

    void exchange(std::size_t node, std::size_t first, std::size_t second) {
        std::vector<std::size_t> path;
        std::size_t colour = first;
        for (std::size_t edge = at_[node][colour]; edge != none; edge = at_[node][colour]) {
            path.push_back(edge);
            node = edges_[edge].team == node ? edges_[edge].place : edges_[edge].team;
            colour = colour == first ? second : first;
        }
        colour = first;
        for (const std::size_t edge : path) {
            for (const std::size_t end : {edges_[edge].team, edges_[edge].place})
                if (at_[end][colour] == edge) at_[end][colour] = none;
            colour = colour == first ? second : first;
        }
        colour = second;
        for (const std::size_t edge : path) {
            at_[edges_[edge].team][colour] = edge;
            at_[edges_[edge].place][colour] = edge;
            colour = colour == first ? second : first;
        }
    }

    const std::vector<Edge>& edges_;
    std::vector<std::vector<std::size_t>> at_;
};

// A resource's places, and whose turn it is.
struct Places {
    std::size_t first = 0;
    std::size_t count = 0;
    std::size_t next = 0;
};

// The nodes: teams, then for each team one for what needs nothing, then places.
struct Graph {
    std::vector<Edge> edges;
    std::size_t nodes = 0;
};

Graph make_graph(const Room& room) {
    Graph graph{{}, 2 * room.teams};
    std::vector<Places> places(room.resources.size());
    for (const Bound& bound : bounds(room)) {
        if (!is_limiting(room, bound)) continue;
        const auto count = static_cast<std::size_t>(bound.places);
        places[bound.resource_id] = {graph.nodes, count, 0};
        graph.nodes += count;
    }
    for (std::size_t team = 0; team < room.teams; ++team) {
        for (std::uint32_t visit = 0; visit < room.needs.size(); ++visit) {
            std::size_t place = room.teams + team;
            for (const Need& need : room.needs[visit]) {
                Places& own = places[need.resource_id];
                if (own.count == 0) continue;
                place = own.first + own.next;
                own.next = (own.next + 1) % own.count;
            }
            graph.edges.push_back({team, place, visit});
        }
    }
    return graph;
}

}  // namespace

Rota coloured_rota(const Room& room) {
    const Graph graph = make_graph(room);
    const auto length = static_cast<std::size_t>(least_intervals(room));
    Colouring colouring(graph.nodes, length, graph.edges);
    for (std::size_t edge = 0; edge < graph.edges.size(); ++edge)
        colouring.add(edge);
    Rota rota{Method::coloured, {}};
    rota.where.resize(length, std::vector<std::optional<std::uint32_t>>(room.teams));
    for (std::size_t team = 0; team < room.teams; ++team) {
        for (std::size_t at = 0; at < length; ++at) {
            const std::size_t edge = colouring.at(team, at);
            if (edge != Colouring::none) rota.where[at][team] = graph.edges[edge].visit;
        }
    }
    return rota;
}

}  // namespace stave::floors
