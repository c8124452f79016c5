// What takes long, as jobs; and the sheets.
#include "desk/curve.hpp"
#include "desk/desk.hpp"
#include "desk/heat.hpp"
#include "desk/page.hpp"
#include "desk/revs.hpp"
#include "desk/run.hpp"
#include "desk/seek.hpp"
#include "server/answering.hpp"
#include "server/handlers.hpp"

namespace portwright::server {
namespace {

desk::Watch watch(JobPort& port) {
  return [&port](double share, const std::string& what) { return port.progress(share, what); };
}

template <class A>
base::ResultAll<std::string> as_json(const base::ResultAll<A>& answer) {
  if (!answer) return tl::unexpected(answer.error());
  return wire::to_json(*answer);
}

Response started(const Call& call, const std::string& client, const char* name, Job job) {
  const std::string id = call.jobs.start({call.who.session, client, call.who.device}, name, std::move(job));
  return json_response(wire::ask_text(wire::Started{id}));
}

/// Sets of assumptions while a slider moves: all of it then takes 20 ms beyond its turns.
constexpr int members_in_hand = 16;
/// Near enough to see where power is greatest; the sets look closer about it [rpm].
constexpr const char* speeds_for_bands = "5000:12500:1500";

Response sheet(const base::ResultAll<desk::Sheet>& drawn, const char* type, const char* file) {
  return drawn ? sheet_response(drawn->bytes, type, file) : problem(drawn.error());
}

}  // namespace

Response run_curve(const Call& call) {
  return with<wire::RunCurve>(call, [&](const wire::RunCurve& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    desk::CurveRequest request{of_book(ask.saw), ask.cuts, ask.speeds};
    request.settle = ask.settle;
    request.style = ask.units;
    request.book = call.book.path;
    return started(call, ask.client, "curve", [request, memory = call.opened.curves()](JobPort& port) {
      const auto told = [&](const wire::CurveAnswer& answer) {
        port.part(wire::to_json(answer));
        return port.progress(answer.share, answer.doing);
      };
      return as_json(desk::curve(request, told, memory.get()));
    });
  });
}

Response run_traces(const Call& call) {
  return with<wire::RunTraces>(call, [&](const wire::RunTraces& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    const desk::TracesRequest request{of_book(ask.saw), ask.cuts, ask.speed, ask.units, call.book.path};
    return started(call, ask.client, "traces",
                   [request](JobPort& port) { return as_json(desk::traces(request, watch(port))); });
  });
}

Response run_airflow(const Call& call) {
  return with<wire::RunAirflow>(call, [&](const wire::RunAirflow& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    const desk::AirflowRequest request{of_book(ask.saw), ask.cuts, ask.speed, "", ask.units, call.book.path};
    return started(call, ask.client, "airflow",
                   [request](JobPort& port) { return as_json(desk::airflow(request, watch(port))); });
  });
}

Response run_crank(const Call& call) {
  return with<wire::RunCrank>(call, [&](const wire::RunCrank& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    const desk::CrankRequest request{of_book(ask.saw), ask.cuts, ask.units, call.book.path};
    return started(call, ask.client, "crank",
                   [request](JobPort& port) { return as_json(desk::crank(request, watch(port))); });
  });
}

Response run_revs(const Call& call) {
  return with<wire::RunRevs>(call, [&](const wire::RunRevs& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    const desk::RevsRequest request{of_book(ask.saw), ask.cuts, ask.speed, "", ask.units, call.book.path};
    return started(call, ask.client, "revs",
                   [request](JobPort& port) { return as_json(desk::revs(request, watch(port))); });
  });
}

Response run_heat(const Call& call) {
  return with<wire::RunHeat>(call, [&](const wire::RunHeat& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    desk::HeatRequest request{of_book(ask.saw), ask.cuts, ask.speed, "", ask.units, call.book.path};
    request.brief = ask.brief;
    if (ask.brief) request.members = members_in_hand;
    return started(call, ask.client, "heat",
                   [request](JobPort& port) { return as_json(desk::heat(request, watch(port))); });
  });
}

Response run_chain(const Call& call) {
  return with<wire::RunChain>(call, [&](const wire::RunChain& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    desk::ChainRequest request{of_book(ask.saw), ask.cuts};
    request.style = ask.units;
    request.book = call.book.path;
    return started(call, ask.client, "chain",
                   [request](JobPort& port) { return as_json(desk::chain(request, watch(port))); });
  });
}

Response run_seek(const Call& call) {
  return with<wire::RunSeek>(call, [&](const wire::RunSeek& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    desk::SeekRequest request;
    request.file = of_book(ask.saw);
    request.wishes = ask.wish;
    request.free = ask.free;
    request.step = ask.step;
    request.chance = ask.chance;
    request.memory = ask.memory;
    request.seconds = ask.seconds.value_or(0.0);
    request.style = ask.units;
    request.book = call.book.path;
    return started(call, ask.client, "seek", [request](JobPort& port) {
      std::size_t told = 0;
      const auto watch = [&](const wire::SeekAnswer& answer) {
        // While ranges are run nothing changes but how far it is.
        if (answer.tried.size() != told) port.part(wire::to_json(answer));
        told = answer.tried.size();
        return port.progress(answer.share, answer.doing);
      };
      return as_json(desk::seek(request, watch));
    });
  });
}

Response run_bands(const Call& call) {
  return with<wire::RunBands>(call, [&](const wire::RunBands& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    desk::RunRequest request{of_book(ask.saw), ask.cuts, speeds_for_bands, "", ""};
    request.style = ask.units;
    request.book = call.book.path;
    return started(call, ask.client, "bands",
                   [request](JobPort& port) { return as_json(desk::run(request, watch(port))); });
  });
}

Response sheet_map(const Call& call) {
  return with<wire::SheetMap>(call, [&](const wire::SheetMap& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    return sheet(desk::map_sheet({of_book(ask.saw), ask.cuts, "", ask.at, ask.units, call.book.path}), "image/svg+xml",
                 nullptr);
  });
}

Response sheet_template(const Call& call) {
  return with<wire::SheetTemplate>(call, [&](const wire::SheetTemplate& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    return sheet(desk::template_sheet({of_book(ask.saw), ask.cuts, "", ask.paper, ask.printer, ask.paper_thickness,
                                       ask.units, call.book.path}),
                 "application/pdf", "template.pdf");
  });
}

Response sheet_measuring(const Call& call) {
  return with<wire::SheetMeasuring>(call, [&](const wire::SheetMeasuring& ask) {
    return sheet(desk::blank_measuring_sheet({"", ask.paper}), "application/pdf", nullptr);
  });
}

Response sheet_drawing(const Call& call) {
  return with<wire::SheetDrawing>(call, [&](const wire::SheetDrawing& ask) {
    if (auto refused = Screen().id(ask.id_prefix, "id_prefix").refusal()) return *refused;
    auto drawn = desk::drawing({ask.name, ask.number, ask.id_prefix});
    if (!drawn) return problem(drawn.error());
    return sheet(desk::Sheet{{}, std::move(*drawn)}, "image/svg+xml", nullptr);
  });
}

}  // namespace portwright::server
