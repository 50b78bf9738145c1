// Reads time zones from the machine's IANA database, each once, as plain data.
//
// Takes exact database names, aliases too; letter case counts. Refuses names
// that no zone bears, among them every name that could lead out of the
// database's folder. Nothing is read before the first name is asked for; the
// first costs about 1.5 ms (a walk over the database's folder), each further
// one about 0.1 ms.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/civil/zone.hpp"

namespace stave::zones {

// Neither copied nor moved: zones handed out live as long as their loader. For
// one thread.
class ZoneLoader {
public:
    ZoneLoader() = default;
    ZoneLoader(const ZoneLoader&) = delete;
    ZoneLoader& operator=(const ZoneLoader&) = delete;

    // Null for a name the database lacks, and for every name where the machine
    // has no database. Never throws but for want of memory.
    [[nodiscard]] const civil::Zone* find(std::string_view name);

    // `find` as the passes want it; as long-lived as the loader.
    [[nodiscard]] civil::ZoneFinder finder();

private:
    // Null for names already known to be absent.
    std::map<std::string, std::unique_ptr<const civil::Zone>, std::less<>> zones_;
};

}  // namespace stave::zones
