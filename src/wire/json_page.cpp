// JSON of the answers that a drawing is made from.
#include "wire/json_page.hpp"

#include "wire/json_walk.hpp"
#include "wire/shapes_page.hpp"
#include "wire/shapes_rubbing.hpp"

namespace portwright::wire {

template <class A>
std::string to_json(const A& answer) {
  return written_text(answer);
}

template <class A>
base::Result<A> from_json(std::string_view text) {
  return read_text<A>(text, Keys::passed_over);
}

std::vector<Schema> page_schemas() {
  return {schema_of<BoreAnswer>(), schema_of<FormAnswer>(), schema_of<StepsAnswer>(), schema_of<RubbingAnswer>()};
}

template std::string to_json<BoreAnswer>(const BoreAnswer& answer);
template base::Result<BoreAnswer> from_json<BoreAnswer>(std::string_view text);
template std::string to_json<FormAnswer>(const FormAnswer& answer);
template base::Result<FormAnswer> from_json<FormAnswer>(std::string_view text);
template std::string to_json<StepsAnswer>(const StepsAnswer& answer);
template base::Result<StepsAnswer> from_json<StepsAnswer>(std::string_view text);
template std::string to_json<RubbingAnswer>(const RubbingAnswer& answer);
template base::Result<RubbingAnswer> from_json<RubbingAnswer>(std::string_view text);

}  // namespace portwright::wire
