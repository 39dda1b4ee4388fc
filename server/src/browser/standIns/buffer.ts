/** Bytes as libraries for Node expect them. */
export { Buffer } from 'buffer/';
