//! Places and movements: balances are sums, nothing else.
