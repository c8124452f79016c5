#include "desk/nearest.hpp"
#include "desk/page.hpp"
#include "draw/qr.hpp"
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

base::ResultAll<std::string> qr_code(const std::string& text, const std::string& says) {
  auto code = draw::qr_code(text);
  if (!code) return tl::unexpected(base::Errors{code.error()});
  code->title = "QR code";
  code->description = says;
  return draw::to_svg(*code, {nullptr, true, "qr"});
}

}  // namespace portwright::desk
