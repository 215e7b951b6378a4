#include "heapwright/lawn/site.hpp"

#include "heapwright/input/document.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {

std::optional<Site> read_site(Table& of) {
  std::optional<Table> table = of.table("site");
  if (!table) return std::nullopt;
  Site site;
  site.address = table->text("address").value_or("");
  site.contact = table->text("contact").value_or("");
  site.drop_spot = table->text("drop_spot").value_or("");
  site.access = table->text("access").value_or("");
  site.gate_width = table->read("gate_width", read_length);
  if (site.gate_width && !is_positive(*site.gate_width)) table->problem_at("gate_width", "a gate is wider", "write gate_width = \"10 ft\"");
  site.deliver_from = table->date("deliver_from");
  site.deliver_to = table->date("deliver_to");
  if (site.deliver_from && site.deliver_to && *site.deliver_to < *site.deliver_from)
    table->problem_at("deliver_to", "is before deliver_from", "write the last day that suits");
  table->finish();
  return site;
}

}  // namespace heapwright
