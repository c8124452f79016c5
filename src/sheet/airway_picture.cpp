#include "sheet/airway_picture.hpp"

#include <algorithm>
#include <cmath>

#include "draw/lettering.hpp"
#include "draw/marks.hpp"
#include "draw/table.hpp"
#include "sheet/chart.hpp"

namespace portwright::sheet {
namespace {

using chart::ChartPage;
using draw::Point;
using draw::Role;

constexpr double room_height = 7.0;                     // of a room without words [mm]
constexpr double beside_long = 27.0, over_long = 17.0;  // from room to room, words beside the streams or over them [mm]
constexpr double widest = 46.0;                         // of all streams of one stage together [mm]
constexpr double line_step = 3.8, least_words = 20.0;   // of the words beside a stream [mm]
constexpr double back_room = 4.5;                       // beside a stream for what comes back [mm]
constexpr double left_edge = chart::margin, right_edge = chart::page_width - chart::margin;
constexpr double least_back = 0.05;  // that a return arrow is drawn for [mg]

double forward_of(const std::vector<AirStream>& streams) {
  double sum = 0.0;
  for (const AirStream& s : streams) sum += s.forward_mg;
  return sum;
}

double greatest_stage(const AirwaySide& side) {
  return std::max({forward_of(side.intake), forward_of(side.transfers), side.trapped_mg + side.straight_mg,
                   forward_of(side.exhaust)});
}

const AirStream* named(const std::vector<AirStream>& streams, const std::string& name) {
  const auto it = std::find_if(streams.begin(), streams.end(), [&](const auto& s) { return s.name == name; });
  return it == streams.end() ? nullptr : &*it;
}

std::string amount(double mg) { return chart::number(mg, std::abs(mg) < 1.0 ? 2 : 1); }
std::string mg(double value) { return amount(value) + " mg"; }
std::string mbar(double value) { return chart::number(value, std::abs(value) < 10.0 ? 1 : 0) + " mbar"; }

/// Streams side by side between two rooms.
struct Stage {
  std::string id;
  const std::vector<AirStream>* now;
  const std::vector<AirStream>* stock;  ///< null without cuts
  Role role;
  draw::Hatch hatch;
};

/// What is said of a stream, line by line.
struct Said {
  std::string text;
  Role role = Role::ink;
};

class AirwayPage {
 public:
  explicit AirwayPage(const AirwayInput& input) : in_(input), has_cuts_(input.stock.has_value()) {
    const double most = std::max(greatest_stage(in_.now), has_cuts_ ? greatest_stage(*in_.stock) : 0.0);
    scale_ = widest / most;
    const AirwaySide* stock = has_cuts_ ? &*in_.stock : nullptr;
    intake_ = {"intake", &in_.now.intake, stock ? &stock->intake : nullptr, Role::intake, draw::Hatch::level};
    transfers_ = {"transfers", &in_.now.transfers, stock ? &stock->transfers : nullptr, Role::transfers,
                  draw::Hatch::dots};
    exhaust_ = {"exhaust", &in_.now.exhaust, stock ? &stock->exhaust : nullptr, Role::exhaust, draw::Hatch::upright};
  }

  draw::Canvas drawn() {
    const std::string sentence = airway_sentence(in_);
    const double top = chart::head_height(aside()) + 3;
    const double bottom = lay_out(top);
    page_.canvas = draw::Canvas(chart::page_width, bottom + 7 + chart::sentence_height(sentence));
    page_.canvas.title = in_.saw + ", the air's way at " + chart::number(in_.rpm) + " rpm";
    page_.canvas.description = sentence;
    chart::draw_head(page_, in_.saw, aside(), chart::number(in_.rpm) + " rpm, mg a turn");
    for (const Room& room : rooms_) draw_room(room);
    draw_stage(0, intake_);
    draw_stage(1, transfers_);
    draw_fate();
    draw_stage(3, exhaust_);
    for (const Room& room : rooms_) draw_name(room);
    chart::draw_sentence(page_, bottom + 7, sentence);
    return std::move(page_.canvas);
  }

 private:
  struct Room {
    const char* name;
    double top, bottom;  ///< [mm]
  };

  [[nodiscard]] std::string aside() const {
    return in_.state + (in_.state.empty() || in_.plan.empty() ? "" : ", ") + in_.plan;
  }

  /// Sets the rooms from the top down; returns the y below the last.
  double lay_out(double y) {
    const auto add = [&](const char* name, const Stage* below, double after) {
      const double words = below != nullptr && is_said_over(*below) ? most_lines(*below) * line_step + 1.0 : 0.0;
      rooms_.push_back({name, y, y + room_height + words});
      y = rooms_.back().bottom + after;
    };
    add("the day", &intake_, length_of(intake_));
    add("case", &transfers_, length_of(transfers_));
    add("cylinder", nullptr, beside_long);
    add("exhaust window", &exhaust_, length_of(exhaust_));
    add("muffler", nullptr, 0.0);
    return y;
  }

  [[nodiscard]] double length_of(const Stage& stage) const { return is_said_over(stage) ? over_long : beside_long; }
  static double slot_of(const Stage& stage) {
    return (right_edge - left_edge) / static_cast<double>(std::max<std::size_t>(stage.now->size(), 1));
  }
  [[nodiscard]] double wide_of(const Stage& stage, const AirStream& s) const {
    const AirStream* before = stage.stock == nullptr ? nullptr : named(*stage.stock, s.name);
    return scale_ * std::max(s.forward_mg, before == nullptr ? 0.0 : before->forward_mg);
  }
  /// Whether a stream leaves no room for its words at its side; they stand in the room above, then.
  [[nodiscard]] bool is_said_over(const Stage& stage) const {
    return std::any_of(stage.now->begin(), stage.now->end(), [&](const AirStream& s) {
      return slot_of(stage) - wide_of(stage, s) - back_room - 5.0 < least_words;
    });
  }
  [[nodiscard]] int most_lines(const Stage& stage) const {
    std::size_t most = 0;
    for (const AirStream& s : *stage.now) most = std::max(most, said_of(stage, s).size());
    return static_cast<int>(most);
  }

  [[nodiscard]] std::vector<Said> said_of(const Stage& stage, const AirStream& s) const {
    const AirStream* before = stage.stock == nullptr ? nullptr : named(*stage.stock, s.name);
    std::vector<Said> out;
    out.push_back({s.name + (s.count > 1 ? ", " + std::to_string(s.count) : ""), stage.role});
    out.push_back({mg(s.forward_mg), has_cuts_ ? Role::marking_blue : Role::ink});
    if (before != nullptr) out.push_back({"stock " + amount(before->forward_mg), Role::stock});
    if (s.back_mg > least_back) out.push_back({amount(s.back_mg) + " back", Role::ink});
    if (s.loss.empty()) return out;
    const double room = is_said_over(stage) ? slot_of(stage) - 2.0 : slot_of(stage) - wide_of(stage, s) - back_room - 5;
    for (const std::string& line : lines_of(s.loss, room)) out.push_back({line, Role::reason});
    out.push_back({mbar(s.loss_mbar), Role::reason});
    return out;
  }

  /// Lettering in lines no wider than a room, broken at blanks.
  static std::vector<std::string> lines_of(const std::string& text, double room) {
    std::vector<std::string> out;
    for (std::size_t from = 0; from < text.size();) {
      const std::size_t end = std::min(text.find(' ', from), text.size());
      const std::string word = text.substr(from, end - from);
      const bool fits = !out.empty() && draw::lettering_width(out.back() + ' ' + word, chart::figure_height) <= room;
      if (fits)
        out.back() += ' ' + word;
      else
        out.push_back(word);
      from = end + 1;
    }
    return out;
  }

  // Two rules and a name; where a stream comes in or goes out the rule is broken.
  void draw_room(const Room& room) {
    for (const double y : {room.top, room.bottom})
      page_.canvas.stroke(draw::line({left_edge, y}, {right_edge, y}),
                          {Role::ink, draw::weight::visible, draw::Dash::solid, false});
  }

  // In the middle, or as near as arrow heads let it.
  void draw_name(const Room& room) {
    const double y = room.top + room_height / 2 + 1.4;
    std::vector<Point> wanted{{chart::page_width / 2, y}};
    for (double aside = 1.0; aside < 40.0; aside += 1.0)
      for (const double sign : {1.0, -1.0}) wanted.push_back({chart::page_width / 2 + sign * aside, y});
    place(page_, wanted, room.name, {Role::ink, 2.8, draw::Anchor::middle, 0, false, 0, 0});
  }

  void draw_stage(std::size_t room, const Stage& stage) {
    if (stage.now->empty()) return;
    page_.canvas.group(stage.id, "through the " + stage.id);
    const double slot = slot_of(stage);
    for (std::size_t i = 0; i < stage.now->size(); ++i)
      draw_in_slot(rooms_[room], rooms_[room + 1].top, left_edge + slot * static_cast<double>(i), stage,
                   (*stage.now)[i]);
    page_.canvas.end_group();
  }

  void draw_in_slot(const Room& from, double end, double left, const Stage& stage, const AirStream& s) {
    const AirStream* before = stage.stock == nullptr ? nullptr : named(*stage.stock, s.name);
    const bool over = is_said_over(stage);
    const double slot = slot_of(stage), wide = wide_of(stage, s);
    const double middle = over ? left + slot / 2 : left + 1.5 + wide / 2;
    draw_stream(middle, from.bottom, end, scale_ * s.forward_mg, before ? scale_ * before->forward_mg : 0.0, stage.role,
                stage.hatch);
    draw_returns(middle + wide / 2 + 2.0, from.bottom, end, s.back_mg, before ? before->back_mg : 0.0);
    if (over)
      write({middle, from.top + room_height + line_step - 1.2}, slot - 1.6, said_of(stage, s), draw::Anchor::middle);
    else
      write({middle + wide / 2 + back_room + 2.0, from.bottom + 5.5}, slot - wide - back_room - 4.0, said_of(stage, s),
            draw::Anchor::start);
  }

  void write(Point at, double room, const std::vector<Said>& lines, draw::Anchor anchor) {
    for (const Said& one : lines) {
      draw::TextStyle style{one.role, chart::figure_height, anchor, 0, false, 0, 0};
      draw::draw_fitted_lettering(page_.canvas, at, one.text, style, room);
      at.y += line_step;
    }
  }

  // Stock's width as grey lines, what goes now as a band, an arrow head at its end.
  void draw_stream(double middle, double top, double end, double wide, double stock_wide, Role role,
                   draw::Hatch hatch) {
    const draw::Path band = draw::rectangle(middle - wide / 2, top, wide, end - top);
    for (const double y : {top, end})
      page_.canvas.stroke(draw::line({middle - wide / 2, y}, {middle + wide / 2, y}),
                          {Role::ground, 0.6, draw::Dash::solid, false});
    page_.canvas.tint({band}, role);
    if (wide > 1.0) page_.canvas.hatch({band}, {hatch, role, draw::weight::fine, 1.0, {middle, top}});
    if (stock_wide > 0.0)
      draw_sides(middle, top, end, stock_wide, {Role::stock, draw::weight::visible, draw::Dash::hidden, false});
    draw_sides(middle, top, end, wide,
               {has_cuts_ ? Role::marking_blue : role, draw::weight::edge, draw::Dash::solid, false});
    draw::draw_arrow(page_.canvas, {middle, end + 2.4}, {0, 1}, has_cuts_ ? Role::marking_blue : role, 1.1);
    page_.taken.add({middle - 0.6, end, middle + 0.6, end + 2.6});
  }

  void draw_sides(double middle, double top, double end, double wide, const draw::Stroke& pen) {
    for (const double x : {middle - wide / 2, middle + wide / 2})
      page_.canvas.stroke(draw::line({x, top}, {x, end}), pen);
  }

  // What comes back, as a thin arrow upward; stock's beside it.
  void draw_returns(double x, double top, double end, double back, double stock_back) {
    if (stock_back > least_back) draw_return(x + 1.4, top, end, Role::stock, draw::weight::visible);
    if (back > least_back)
      draw_return(x, top, end, has_cuts_ ? Role::marking_blue : Role::ink, has_cuts_ ? draw::weight::edge : 0.35);
  }
  void draw_return(double x, double top, double end, Role role, double weight) {
    page_.canvas.stroke(draw::line({x, end - 0.8}, {x, top + 2.0}), {role, weight, draw::Dash::solid, false});
    draw::draw_arrow(page_.canvas, {x, top + 0.6}, {0, -1}, role, 1.0);
  }

  // Trapped on the left, straight through on the right.
  void draw_fate() {
    page_.canvas.group("fate", "what is trapped and what goes straight through");
    const AirwaySide* stock = has_cuts_ ? &*in_.stock : nullptr;
    const double left = draw_part(left_edge, {"trapped", in_.now.trapped_mg, stock ? stock->trapped_mg : 0.0},
                                  Role::transfers, draw::Hatch::dots);
    draw_part(left, {"straight through", in_.now.straight_mg, stock ? stock->straight_mg : 0.0}, Role::exhaust,
              draw::Hatch::crosses);
    page_.canvas.end_group();
  }

  struct Part {
    const char* name;
    double now, stock;
  };
  /// Returns where the next may begin.
  double draw_part(double left, const Part& part, Role role, draw::Hatch hatch) {
    constexpr double room = 23.0;
    const double fresh = in_.now.trapped_mg + in_.now.straight_mg, top = rooms_[2].bottom, end = rooms_[3].top;
    const double wide = scale_ * std::max(part.now, part.stock), middle = left + 1.5 + wide / 2;
    draw_stream(middle, top, end, scale_ * part.now, scale_ * part.stock, role, hatch);
    std::vector<Said> lines{{part.name, role}, {mg(part.now), has_cuts_ ? Role::marking_blue : Role::ink}};
    if (has_cuts_) lines.push_back({"stock " + amount(part.stock), Role::stock});
    if (fresh > 0.0) lines.push_back({chart::number(100 * part.now / fresh, 0) + " %", Role::reason});
    write({middle + wide / 2 + 2.0, top + 5.5}, room, lines, draw::Anchor::start);
    return middle + wide / 2 + 2.0 + room + 1.0;
  }

  const AirwayInput& in_;
  bool has_cuts_;
  double scale_ = 1.0;  ///< [mm/mg]
  Stage intake_{}, transfers_{}, exhaust_{};
  std::vector<Room> rooms_{};
  ChartPage page_{};
};

std::string share_text(const AirwaySide& side) {
  const double fresh = side.trapped_mg + side.straight_mg;
  if (fresh <= 0.0) return "";
  return "Of " + mg(fresh) + " of fresh charge " + chart::number(100 * side.trapped_mg / fresh, 0) +
         " % stays in the cylinder and " + chart::number(100 * side.straight_mg / fresh, 0) + " % goes out unburnt. ";
}

std::string loss_text(const AirwaySide& side) {
  const AirStream* worst = nullptr;
  for (const AirStream& s : side.transfers)
    if (!s.loss.empty() && (worst == nullptr || s.loss_mbar > worst->loss_mbar)) worst = &s;
  if (worst == nullptr) return "";
  return "Dearest place of the transfers: " + worst->loss + " of " + worst->name + ", " + mbar(worst->loss_mbar) + ". ";
}

std::string returns_text(const AirwaySide& side) {
  double blow = 0.0, spit = 0.0;
  for (const AirStream& s : side.transfers) blow += s.back_mg;
  for (const AirStream& s : side.intake) spit += s.back_mg;
  std::vector<std::string> said;
  if (blow > least_back) said.push_back(mg(blow) + " blow back into the transfers");
  if (spit > least_back) said.push_back(mg(spit) + " spit back through the intake");
  return said.empty() ? "Nothing comes back. " : chart::listed(said) + ". ";
}

}  // namespace

std::string airway_sentence(const AirwayInput& input) {
  std::string text = share_text(input.now) + returns_text(input.now) + loss_text(input.now);
  if (input.stock) {
    const double change = input.now.trapped_mg - input.stock->trapped_mg;
    text += std::string("Trapped ") + (change < 0 ? "less" : "more") + " than stock by " + mg(std::abs(change)) +
            ". Grey, dashed, is stock. ";
  }
  text += "Widths are to scale. ";
  text.pop_back();
  return text;
}

base::Result<draw::Canvas> draw_airway(const AirwayInput& input) {
  if (!(greatest_stage(input.now) > 0.0))
    return base::fail(base::ErrorCode::not_found, "No air moves: there is nothing to draw.");
  return AirwayPage(input).drawn();
}

base::Result<std::string> airway_svg(const AirwayInput& input, draw::SvgOptions options) {
  if (options.theme == nullptr) options.theme = &draw::theme_paper();
  return draw_airway(input).map([&](const draw::Canvas& canvas) { return draw::to_svg(canvas, options); });
}

}  // namespace portwright::sheet
