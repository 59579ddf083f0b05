//! `knotwright.orders`: how the strands hang after each step, for a client that paints them behind the lines.

use super::asked::{failed, read};
use crate::documents::Snapshot;
use crate::server::Server;
use knotwright_editor::{self as editor, PaintedStrand, StrandOrder};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{Position, Range, Uri};

#[derive(Debug, Deserialize)]
struct OrdersRequest {
    uri: Uri,
    range: Range,
}

#[derive(Debug, Serialize)]
struct OrdersAnswer {
    orders: Vec<Order>,
}

/// How the strands hang at a place.
#[derive(Debug, Serialize)]
struct Order {
    position: Position,
    /// From the left.
    strands: Vec<Strand>,
    tooltip: String,
}

#[derive(Debug, Serialize)]
struct Strand {
    thread: String,
    color: String,
    letter: char,
}

impl Server {
    /// Answers also for a text with errors: as far as it is known how the strands hang.
    pub(super) async fn orders(&self, arguments: Vec<Value>) -> Result<Value> {
        let OrdersRequest { uri, range } = read(arguments)?;
        let within = move |pattern: &Snapshot| {
            let orders = editor::strand_orders(pattern.checked(), pattern.span(range)).into_iter();
            orders.map(|order| painted(pattern, order)).collect::<Vec<_>>()
        };
        let all = move |snapshot: &Snapshot| snapshot.patterns_in(range).iter().flat_map(within).collect();
        let orders = self.ask(&uri, all).await?.unwrap_or_default();
        serde_json::to_value(OrdersAnswer { orders }).map_err(|error| failed(error.to_string()))
    }
}

fn painted(pattern: &Snapshot, order: StrandOrder) -> Order {
    Order {
        position: pattern.position(order.offset),
        strands: order
            .strands
            .into_iter()
            .map(|PaintedStrand { thread, color, letter }| Strand {
                thread: thread.to_string(),
                color: color.to_string(),
                letter,
            })
            .collect(),
        tooltip: order.tooltip,
    }
}
