#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

using parse::NodeKind;

std::optional<Dose> lower_dose(const NodeReader& reader, NodeRange nodes) {
    Dose dose;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        switch (reader.at(i).kind) {
            case NodeKind::movement_name:
                break;
            case NodeKind::work:
                dose.work = lower_work(reader, i);
                if (!dose.work) return std::nullopt;
                break;
            case NodeKind::load:
                if (!lower_load(reader, i, dose)) return std::nullopt;
                break;
            case NodeKind::on_date:
                dose.on = lower_date(reader, reader.at(i + 1).span);
                if (!dose.on) return std::nullopt;
                break;
            default:
                if (!lower_detail(reader, i, dose.details)) return std::nullopt;
        }
    }
    if (!pair_about(reader, dose.details)) return std::nullopt;
    return dose;
}

}  // namespace stave::syntax
