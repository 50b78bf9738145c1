#include "backends/card/pdf/compact_file.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <iterator>
#include <set>
#include <vector>

namespace stave::card {

namespace {

// One row of the cross-references, table 18.
struct Row {
    // 0: no such object, 1: at an offset of the file, 2: in an object stream.
    unsigned type = 0;
    // The offset, or the stream's number.
    std::size_t place = 0;
    // Which of the stream's objects.
    std::size_t index = 0;
};

constexpr int place_bytes = 4;
constexpr int index_bytes = 2;

void append_big_endian(std::string& out, std::size_t value, int bytes) {
    for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8)
        out += static_cast<char>(value >> shift & 0xFFU);
}

bool is_dictionary(const void* object) {
    const auto* header = static_cast<const HPDF_Obj_Header*>(object);
    return (header->obj_class & HPDF_OCLASS_ANY) == HPDF_OCLASS_DICT;
}

bool is_stream(const void* object) {
    return is_dictionary(object) && static_cast<const HPDF_Dict_Rec*>(object)->stream != nullptr;
}

class FileWriter {
public:
    explicit FileWriter(const Objects& objects) : objects_(objects) {}

    std::string run(const std::string& identifier) {
        // The second line tells programs that this is no text.
        file_ = "%PDF-1.7\n%\xB7\xBE\xAD\xAA\n";
        const std::size_t count = entry_count();
        rows_.resize(count);
        for (std::size_t id = 1; id < count; ++id) {
            if (is_stream(object(id))) lengths_.insert(length_of(object(id)));
        }
        for (std::size_t id = 1; id < count; ++id) {
            if (is_stream(object(id))) write_stream(id);
        }
        write_packed(count);
        write_cross_references(identifier);
        return std::move(file_);
    }

private:
    [[nodiscard]] std::size_t entry_count() const {
        return objects_.document()->xref->entries->count;
    }
    [[nodiscard]] void* object(std::size_t id) const {
        HPDF_Xref xref = objects_.document()->xref;
        return objects_.check(HPDF_Xref_GetEntry(xref, static_cast<HPDF_UINT>(id)))->obj;
    }
    [[nodiscard]] const void* length_of(void* stream) const {
        return objects_.check(
            HPDF_Dict_GetItem(static_cast<HPDF_Dict>(stream), "Length", HPDF_OCLASS_NUMBER));
    }

    // As libharu writes it, without its number.
    [[nodiscard]] std::string value_of(void* object) const {
        const StreamHandle out = objects_.memory_stream();
        objects_.check(HPDF_Obj_WriteValue(object, out.get(), nullptr));
        return Objects::contents_of(out.get());
    }

    // libharu makes each length an object of its own; the number itself is shorter, and
    // is known once the stream is written.
    void write_stream(std::size_t id) {
        std::string value = value_of(object(id));
        const std::size_t key = value.find("/Length ");
        const std::size_t end = value.find(" R", key);
        if (key == std::string::npos || end == std::string::npos) objects_.fail();
        const auto* length = static_cast<const HPDF_Number_Rec*>(length_of(object(id)));
        value.replace(key, end + 2 - key,
                      fmt::format("/Length {} /Filter /FlateDecode", length->value));
        rows_.resize(std::max(rows_.size(), id + 1));
        rows_[id] = {1, file_.size(), 0};
        fmt::format_to(std::back_inserter(file_), "{} 0 obj\n{}\nendobj\n", id, value);
    }

    // Adds a stream of ours to the document, written with these bytes.
    [[nodiscard]] HPDF_Dict new_stream(const char* type, std::string_view data) const {
        HPDF_Dict stream = objects_.stream(data);
        objects_.add_name(stream, "Type", type);
        return stream;
    }

    // All objects that are no streams, but for the streams' lengths.
    void write_packed(std::size_t count) {
        std::string heads;
        std::string values;
        std::size_t packed = 0;
        // The stream gets the next number.
        const std::size_t stream_id = entry_count();
        for (std::size_t id = 1; id < count; ++id) {
            if (is_stream(object(id)) || lengths_.contains(object(id))) continue;
            fmt::format_to(std::back_inserter(heads), "{} {} ", id, values.size());
            values += value_of(object(id)) + '\n';
            rows_[id] = {2, stream_id, packed};
            ++packed;
        }
        HPDF_Dict stream = new_stream("ObjStm", heads + values);
        objects_.add_number(stream, "N", packed);
        objects_.add_number(stream, "First", heads.size());
        write_stream(number_of(stream));
    }

    [[nodiscard]] static std::size_t number_of(HPDF_Dict dict) {
        return dict->header.obj_id & 0x00FFFFFFU;
    }

    void write_cross_references(const std::string& identifier) {
        const std::size_t start = file_.size();
        // Of the stream that is to be made.
        const std::size_t stream_id = entry_count();
        rows_.resize(stream_id + 1);
        rows_[stream_id] = {1, start, 0};
        std::string data;
        for (const Row& row : rows_) {
            data += static_cast<char>(row.type);
            append_big_endian(data, row.place, place_bytes);
            append_big_endian(data, row.index, index_bytes);
        }
        HPDF_Dict stream = new_stream("XRef", data);
        objects_.add_number(stream, "Size", rows_.size());
        HPDF_Array widths = objects_.array();
        objects_.add(stream, "W", widths);
        for (const int bytes : {1, place_bytes, index_bytes})
            objects_.add_number(widths, static_cast<std::size_t>(bytes));
        objects_.add(stream, "Root", objects_.document()->catalog);
        objects_.add(stream, "Info", objects_.document()->info);
        HPDF_Array identifiers = objects_.array();
        objects_.add(stream, "ID", identifiers);
        for (int copy = 0; copy < 2; ++copy)
            objects_.add(identifiers, objects_.binary(identifier));
        write_stream(number_of(stream));
        fmt::format_to(std::back_inserter(file_), "startxref\n{}\n%%EOF\n", start);
    }

    const Objects& objects_;
    std::string file_;
    // By object number.
    std::vector<Row> rows_;
    std::set<const void*> lengths_;
};

}  // namespace

std::string compact_file(const Objects& objects, const std::string& identifier) {
    return FileWriter(objects).run(identifier);
}

}  // namespace stave::card
