// Package checks compares what sun and sky compute with figures others
// published or computed, and makes the table of it (../CHECKS.md).
package checks
