#include "desk/nearest.hpp"
#include "desk/page.hpp"
#include "draw/svg.hpp"
#include "sheet/measuring_drawings.hpp"

namespace portwright::desk {

base::ResultAll<std::string> drawing(const DrawingRequest& request) {
  std::vector<std::string> names;
  for (const sheet::NamedDrawing& one : sheet::named_drawings()) {
    names.emplace_back(one.name);
    if (one.name != request.name) continue;
    draw::SvgOptions options;
    options.theme = &draw::theme_paper();
    options.id_prefix = request.id_prefix;
    options.ground = false;
    return draw::to_svg(sheet::draw_alone(one, request.number - 1), options);
  }
  return tl::unexpected(
      base::Errors{{base::ErrorCode::not_found, "There is no drawing \u201C" + request.name + "\u201D.", "",
                    did_you_mean(request.name, names), names}});
}

}  // namespace portwright::desk
