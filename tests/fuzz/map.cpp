/// Lawns in files of maps and tracks. Where the text is no map it is given as one of the other kind.

#include "checks.hpp"
#include "heapwright/lawn/geo_file.hpp"
#include "heapwright/lawn/geodesic.hpp"
#include "heapwright/yard/yard.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {

void read_map(std::string_view text) {
  const FileOf file(text);
  const std::string shape = text.find('<') < text.find('{') ? "gpx" : "geojson";
  ends_well([&] {
    const Yard yard = read_yard_text("[[lawn.zone]]\nshape = \"" + shape + "\"\nfile = \"" + file.path() + "\"\n", "yard.toml", tables());
    const double area = area_of(yard.lawn.value()).value();
    require(std::isfinite(area) && area >= 0.0, "a lawn has an area");
    count_answered();
  });
}

}  // namespace heapwright::fuzz
