#include "draw/qr.hpp"

#include <algorithm>
#include <map>
#include <qrcodegen/qrcodegen.hpp>
#include <utility>
#include <vector>

namespace portwright::draw {
namespace {

using qrcodegen::QrCode;
using Corner = std::pair<int, int>;  // column, row
using Edges = std::multimap<Corner, Corner>;

constexpr std::size_t most_bytes = 1000;

// Edges between dark and light, the dark always at their right hand.
Edges edges_of(const QrCode& code) {
  Edges out;
  for (int y = 0; y < code.getSize(); ++y)
    for (int x = 0; x < code.getSize(); ++x) {
      if (!code.getModule(x, y)) continue;
      if (!code.getModule(x, y - 1)) out.emplace(Corner{x, y}, Corner{x + 1, y});
      if (!code.getModule(x + 1, y)) out.emplace(Corner{x + 1, y}, Corner{x + 1, y + 1});
      if (!code.getModule(x, y + 1)) out.emplace(Corner{x + 1, y + 1}, Corner{x, y + 1});
      if (!code.getModule(x - 1, y)) out.emplace(Corner{x, y + 1}, Corner{x, y});
    }
  return out;
}

bool is_straight(Corner a, Corner b, Corner c) {
  return (a.first == b.first && b.first == c.first) || (a.second == b.second && b.second == c.second);
}

// One closed outline, taken out of the edges; corners alone.
std::vector<Corner> outline(Edges& edges) {
  std::vector<Corner> out;
  const Corner first = edges.begin()->first;
  for (Corner at = first;;) {
    const auto edge = edges.find(at);
    const Corner next = edge->second;
    edges.erase(edge);
    if (out.size() >= 2 && is_straight(out[out.size() - 2], out.back(), at))
      out.back() = at;
    else
      out.push_back(at);
    if (next == first) return out;
    at = next;
  }
}

}  // namespace

base::Result<Canvas> qr_code(const std::string& text, double module) {
  if (text.size() > most_bytes)
    return base::fail(base::ErrorCode::out_of_range, "The text is too long for a code that a phone can read.");
  const QrCode code = QrCode::encodeText(text.c_str(), QrCode::Ecc::MEDIUM);
  const double side = (code.getSize() + 2 * qr_quiet) * module;
  Canvas canvas(side, side);
  Area area;
  for (Edges edges = edges_of(code); !edges.empty();) {
    std::vector<Point> points;
    for (const auto& [x, y] : outline(edges)) points.push_back({(x + qr_quiet) * module, (y + qr_quiet) * module});
    area.push_back(polyline(std::move(points), true));
  }
  canvas.fill(std::move(area));
  return canvas;
}

}  // namespace portwright::draw
